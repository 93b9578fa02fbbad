// One sheet with all that is known of it, as text.
#pragma once

#include "io/sheet_library/sheet_library.hpp"

#include <string>

namespace flangewright::command_line {

/// Every value with unit, grade and source; what is not known is said to be so.
[[nodiscard]] std::string material_page(const sheet_library::KnownSheet& sheet);

/// "yield_stress 76 MPa, saturation_stress 229 MPa, rate 16.6".
[[nodiscard]] std::string
parameters_text(const std::string& law_name, const material::LawValues& values);

/// "76 MPa (11 ksi)". Takes MPa.
[[nodiscard]] std::string both_stresses(double stress);

/// "73.1 GPa (10.6 Msi)". Takes MPa.
[[nodiscard]] std::string modulus_text(double modulus);

/// "plastic strain 0 to 0.145", or that it is not known.
[[nodiscard]] std::string fitted_text(const std::optional<material::StrainRange>& range);

} // namespace flangewright::command_line
