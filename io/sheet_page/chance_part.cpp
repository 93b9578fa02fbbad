#include "io/sheet_page/chance_part.hpp"

#include "io/sheet_page/html.hpp"
#include "io/tables/chance_words.hpp"

namespace flangewright::sheet_page {

std::string chance_part(const process::JobResult& result) {
    if (!result.chance) {
        return {};
    }
    std::string content = "<p>" + safe(tables::chance_sentence(*result.chance)) + "</p>\n";
    const std::string caution = tables::chance_caution(*result.chance);
    content += caution.empty() ? caution : "<p class=\"note\">" + safe(caution) + "</p>\n";
    return section("chance", tables::chance_heading, content);
}

} // namespace flangewright::sheet_page
