// The yield law of a sheet in words.
#pragma once

#include "solver/material/sheet_material.hpp"

#include <string>

namespace flangewright::sheet_library {

/// "hill48, r0 0.65, r45 0.83, r90 0.6", or "von_mises (the same in all directions)". Units: none.
/// Source: yield_law.hpp. Fails: never.
[[nodiscard]] std::string yield_text(const material::SheetMaterial& material);

/// The same, then grade and source in brackets where the sheet is rolled. Units, source, fails: as
/// above.
[[nodiscard]] std::string sourced_yield_text(const material::SheetMaterial& material);

} // namespace flangewright::sheet_library
