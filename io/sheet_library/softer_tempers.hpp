// The same alloy in other tempers.
#pragma once

#include "solver/material/sheet_material.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace flangewright::sheet_library {

/// What a name such as "2024-T3 clad" says; `alloy` is empty when it names no alloy and temper.
struct AlloyAndTemper {
    std::string alloy; ///< "2024"
    std::string temper; ///< "T3"
    std::string rest; ///< " clad"
};

/// Source: four digits, hyphen and temper, the names of the library. Fails: never.
[[nodiscard]] AlloyAndTemper alloy_and_temper_of(std::string_view name);

/// Known sheets of the same alloy, clad alike, that begin to flow at a lower stress; the least soft
/// first, a user's own before a built-in one of the same name. Units: none. Source: the materials.
/// Fails: none for a sheet whose name says no alloy and temper.
[[nodiscard]] std::vector<material::SheetMaterial>
softer_tempers_of(const material::SheetMaterial& sheet);

} // namespace flangewright::sheet_library
