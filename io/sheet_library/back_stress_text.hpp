// Back stresses of a sheet in words.
#pragma once

#include "io/units/length.hpp"
#include "solver/material/sheet_material.hpp"

#include <string>

namespace flangewright::sheet_library {

/// "stiffness 9000 MPa, recall rate 150, grows to 60 MPa", one after the other with semicolons, or
/// "none (isotropic hardening)". Units: MPa or ksi by the length unit. Source: back_stress.hpp.
/// Fails: never.
[[nodiscard]] std::string
back_stress_text(const material::SheetMaterial& material, units::LengthUnit unit);

/// The same, then grade and source in brackets where there is a back stress. Units, source, fails:
/// as above.
[[nodiscard]] std::string
sourced_back_stress_text(const material::SheetMaterial& material, units::LengthUnit unit);

} // namespace flangewright::sheet_library
