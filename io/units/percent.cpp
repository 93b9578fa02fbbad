#include "io/units/percent.hpp"

namespace flangewright::units {

Written read_percent(std::string_view text) {
    const std::optional<SplitNumber> split = split_number(text);
    if (!split || split->unit != "%") {
        return tl::unexpected(NotUnderstood{
            "a percentage with its sign", "write it like \"16 %\", in quotes"});
    }
    return split->number / 100;
}

std::string percent_text(double fraction, int digits) {
    return plain_number(fraction * 100, digits) + " %";
}

} // namespace flangewright::units
