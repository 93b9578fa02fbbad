#include "io/units/stress.hpp"

namespace flangewright::units {

namespace {

std::optional<double> mpa_per(std::string_view unit) {
    if (unit == "MPa" || unit == "N/mm2") {
        return 1.0;
    }
    if (unit == "GPa") {
        return 1000.0;
    }
    if (unit == "ksi") {
        return mpa_per_ksi;
    }
    if (unit == "psi") {
        return mpa_per_ksi / 1000;
    }
    if (unit == "Msi") {
        return mpa_per_ksi * 1000;
    }
    return std::nullopt;
}

NotUnderstood not_a_stress() {
    return {"a stress in MPa, GPa, ksi, psi or Msi", "write it like \"76 MPa\" or \"11 ksi\""};
}

} // namespace

Written stress_of(double number, LengthUnit unit) {
    if (unit == LengthUnit::inch) {
        return tl::unexpected(NotUnderstood{
            "a stress with its unit, since in an inch file MPa and ksi can be mixed up",
            "write it like \"11 ksi\" or \"76 MPa\""});
    }
    return number;
}

Written read_stress(std::string_view text, LengthUnit unit) {
    const std::optional<SplitNumber> split = split_number(text);
    if (!split) {
        return tl::unexpected(not_a_stress());
    }
    if (split->unit.empty()) {
        return stress_of(split->number, unit);
    }
    const std::optional<double> factor = mpa_per(split->unit);
    if (!factor) {
        return tl::unexpected(not_a_stress());
    }
    return split->number * *factor;
}

std::string stress_text(double stress, LengthUnit unit) {
    if (unit == LengthUnit::inch) {
        return plain_number(stress / mpa_per_ksi, 1) + " ksi";
    }
    return plain_number(stress, 1) + " MPa";
}

} // namespace flangewright::units
