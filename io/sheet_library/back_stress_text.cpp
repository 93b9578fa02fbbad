#include "io/sheet_library/back_stress_text.hpp"

#include "io/units/stress.hpp"

#include <fmt/format.h>

namespace flangewright::sheet_library {

std::string back_stress_text(const material::SheetMaterial& material, units::LengthUnit unit) {
    if (material.back_stresses.empty()) {
        return "none (isotropic hardening)";
    }
    std::string text;
    for (const material::BackStress& back : material.back_stresses) {
        const std::string end = back.recall > 0
            ? "grows to " + units::stress_text(back.stiffness / back.recall, unit)
            : "grows without end";
        text += fmt::format(
            "{}stiffness {}, recall rate {:g}, {}",
            text.empty() ? "" : "; ",
            units::stress_text(back.stiffness, unit),
            back.recall,
            end
        );
    }
    return text;
}

std::string
sourced_back_stress_text(const material::SheetMaterial& material, units::LengthUnit unit) {
    const std::string text = back_stress_text(material, unit);
    return material.back_stresses.empty() ? text
                                          : fmt::format(
                                              "{} ({}: {})",
                                              text,
                                              material::word_for(material.back_stress_grade),
                                              material.back_stress_source
                                          );
}

} // namespace flangewright::sheet_library
