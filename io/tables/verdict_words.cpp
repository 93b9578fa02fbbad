#include "io/tables/verdict_words.hpp"

#include "io/tables/shown_length.hpp"
#include "io/tables/step_words.hpp"

namespace flangewright::tables {

std::string verdict_words(const std::string& word, const std::optional<double>& share_used) {
    return with_capital(
        share_used ? word + ": " + shown_number(100 * *share_used, 0) + " % of the limit is used"
                   : word
    );
}

} // namespace flangewright::tables
