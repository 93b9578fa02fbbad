#include "io/units/length.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numeric>

namespace flangewright::units {

namespace {

constexpr int sheet_fractions = 64; // the finest fraction a shop's rule shows

std::optional<double> mm_per(std::string_view unit) {
    if (unit == "mm") {
        return 1.0;
    }
    if (unit == "in" || unit == "inch" || unit == "inches" || unit == "\"" || unit == "in.") {
        return mm_per_inch;
    }
    if (unit == "thou") {
        return mm_per_inch / 1000;
    }
    if (unit == "cm") {
        return 10.0;
    }
    if (unit == "m") {
        return 1000.0;
    }
    return std::nullopt;
}

NotUnderstood not_a_length(std::string_view text) {
    if (text.find(',') != std::string_view::npos) {
        return {"a length such as \"0.8 mm\" or \"1/32 in\"", "write a point, not a comma"};
    }
    return {
        "a length in mm, cm, m, in or thou",
        "write it like \"0.8 mm\", \"0.032 in\", \"1/32 in\", \"1 1/4 in\" or \"32 thou\""};
}

} // namespace

double length_of(double number, LengthUnit unit) {
    return unit == LengthUnit::inch ? number * mm_per_inch : number;
}

Written read_length(std::string_view text, LengthUnit unit) {
    const std::optional<SplitNumber> split = split_number(text);
    if (!split) {
        return tl::unexpected(not_a_length(text));
    }
    if (split->unit.empty()) {
        return length_of(split->number, unit);
    }
    const std::optional<double> factor = mm_per(split->unit);
    if (!factor) {
        return tl::unexpected(not_a_length(text));
    }
    return split->number * *factor;
}

std::string in_mm(double length) {
    return plain_number(length, 3) + " mm";
}

std::string in_inch(double length) {
    return fmt::format("{:.3f} in", length / mm_per_inch);
}

std::string in_inch_fraction(double length, Rounding rounding) {
    const double parts = std::abs(length) / mm_per_inch * sheet_fractions;
    // A thousandth of a part is rounding of the arithmetic, not a length to round up.
    const double rounded = rounding == Rounding::up ? std::ceil(parts - 1e-3) : std::round(parts);
    const auto count = static_cast<long long>(rounded);
    const long long whole = count / sheet_fractions;
    const long long rest = count % sheet_fractions;
    std::string text = length < 0 && count > 0 ? "-" : "";
    if (whole > 0 || rest == 0) {
        text += fmt::format("{}", whole);
    }
    if (rest > 0) {
        const long long common = std::gcd(rest, static_cast<long long>(sheet_fractions));
        text +=
            fmt::format("{}{}/{}", whole > 0 ? " " : "", rest / common, sheet_fractions / common);
    }
    return text + " in";
}

std::string side_by_side(double length, LengthUnit unit) {
    const std::string mm = in_mm(length);
    const std::string inch = in_inch(length);
    return unit == LengthUnit::inch ? inch + " (" + mm + ")" : mm + " (" + inch + ")";
}

} // namespace flangewright::units
