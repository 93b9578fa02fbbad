#include "io/sheet_library/yield_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace flangewright::sheet_library {

std::string yield_text(const material::SheetMaterial& material) {
    if (material.yield == nullptr) {
        return "von_mises (the same in all directions)";
    }
    std::string text = material.yield_name;
    for (const material::YieldEntry& entry : material::yield_laws()) {
        if (entry.name != material.yield_name) {
            continue;
        }
        for (const material::LawParameter& parameter : entry.parameters) {
            const std::vector<double>& values = material.yield_values.at(parameter.name);
            text += fmt::format(", {} {:g}", parameter.name, fmt::join(values, " "));
        }
    }
    return text;
}

std::string sourced_yield_text(const material::SheetMaterial& material) {
    const std::string text = yield_text(material);
    return material.yield == nullptr
        ? text
        : fmt::format(
            "{} ({}: {})", text, material::word_for(material.yield_grade), material.yield_source
        );
}

} // namespace flangewright::sheet_library
