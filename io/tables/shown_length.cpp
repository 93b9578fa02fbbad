#include "io/tables/shown_length.hpp"

#include <fmt/format.h>

#include <cmath>

namespace flangewright::tables {

double in_unit(double length, units::LengthUnit unit) {
    return unit == units::LengthUnit::inch ? length / units::mm_per_inch : length;
}

std::string unit_word(units::LengthUnit unit) {
    return unit == units::LengthUnit::inch ? "in" : "mm";
}

std::string shown_length(double length, units::LengthUnit unit) {
    if (!std::isfinite(length)) {
        return "not known";
    }
    std::string in_mm = shown_number(length, 2) + " mm";
    if (unit == units::LengthUnit::millimetre) {
        return in_mm;
    }
    return fmt::format("{} in ({})", shown_number(in_unit(length, unit), 3), in_mm);
}

std::string brief_length(double length, units::LengthUnit unit) {
    if (!std::isfinite(length)) {
        return "not known";
    }
    const int n_decimals = unit == units::LengthUnit::inch ? 3 : 2;
    return shown_number(in_unit(length, unit), n_decimals) + " " + unit_word(unit);
}

std::string shown_layout_length(double length, units::LengthUnit unit) {
    if (unit == units::LengthUnit::millimetre || !std::isfinite(length)) {
        return shown_length(length, unit);
    }
    return fmt::format(
        "{} ({} in, {} mm)",
        units::in_inch_fraction(length, units::Rounding::nearest),
        shown_number(in_unit(length, unit), 3),
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

std::string shown_error(double error, int n_decimals) {
    const double unit = std::pow(10.0, -n_decimals);
    constexpr double rounding = 1e-9;
    return shown_number(std::ceil(std::abs(error) / unit - rounding) * unit, n_decimals);
}

double stretch_percent(double log_strain) {
    return 100 * std::expm1(log_strain);
}

} // namespace flangewright::tables
