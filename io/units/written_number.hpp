// A number with a unit behind it, as somebody typed it.
#pragma once

#include "mesh/base/result.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace flangewright::units {

/// What is wrong with a written quantity, and how to write it.
struct NotUnderstood {
    std::string allowed;
    std::string remedy;
};

/// A value in the program's own unit, or what is wrong with the text.
using Written = Result<double, NotUnderstood>;

/// A number and the rest of the text after it, spaces cut off.
struct SplitNumber {
    double number = 0;
    std::string unit;
};

/// Splits "1 1/4 in" into 1.25 and "in". Decimals, fractions and whole numbers with a fraction are
/// understood; a decimal comma is not. Units: none. Source: none needed.
/// Fails: returns nothing when there is no number in front.
[[nodiscard]] std::optional<SplitNumber> split_number(std::string_view text);

/// At most `digits` after the point, trailing zeros cut off; never "-0".
[[nodiscard]] std::string plain_number(double value, int digits);

} // namespace flangewright::units
