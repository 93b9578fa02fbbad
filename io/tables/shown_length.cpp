#include "io/tables/shown_length.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <numeric>

namespace flangewright::tables {

namespace {

constexpr double mm_per_inch = 25.4;
constexpr long fraction = 64;

/// "1 17/64" for the nearest 64th; "0" when the length is below half of one.
std::string nearest_fraction(double inches) {
    const long all = std::lround(std::abs(inches) * fraction);
    const long whole = all / fraction;
    const long rest = all % fraction;
    const std::string sign = inches < 0 && all > 0 ? "-" : "";
    if (rest == 0) {
        return fmt::format("{}{}", sign, whole);
    }
    const long divisor = std::gcd(rest, fraction);
    const std::string part = fmt::format("{}/{}", rest / divisor, fraction / divisor);
    return whole == 0 ? sign + part : fmt::format("{}{} {}", sign, whole, part);
}

} // namespace

double in_shown_unit(double length, ShownUnit unit) {
    return unit == ShownUnit::inch ? length / mm_per_inch : length;
}

std::string unit_word(ShownUnit unit) {
    return unit == ShownUnit::inch ? "in" : "mm";
}

std::string shown_length(double length, ShownUnit unit) {
    if (std::isinf(length)) {
        return "straight";
    }
    if (std::isnan(length)) {
        return "not known";
    }
    const std::string in_mm = shown_number(length, 2) + " mm";
    if (unit == ShownUnit::mm) {
        return in_mm;
    }
    return fmt::format("{} in ({})", shown_number(length / mm_per_inch, 3), in_mm);
}

std::string shown_layout_length(double length, ShownUnit unit) {
    if (unit == ShownUnit::mm || !std::isfinite(length)) {
        return shown_length(length, unit);
    }
    const double inches = length / mm_per_inch;
    return fmt::format(
        "{} in ({} in, {} mm)",
        nearest_fraction(inches),
        shown_number(inches, 3),
        shown_number(length, 2)
    );
}

std::string shown_number(double value, int n_decimals) {
    if (!std::isfinite(value)) {
        return "not known";
    }
    const double step = std::pow(10.0, -n_decimals);
    const double cleaned = std::abs(value) < 0.5 * step ? 0.0 : value;
    return fmt::format("{:.{}f}", cleaned, n_decimals);
}

double degrees(double angle) {
    return angle * 180 / std::numbers::pi;
}

double stretch_percent(double log_strain) {
    return 100 * std::expm1(log_strain);
}

} // namespace flangewright::tables
