// What a tensile test at an angle to the rolling direction would show of a yield law.
#pragma once

#include "solver/material/yield_law.hpp"

namespace flangewright::material {

/// Tension in one direction of the sheet.
struct DirectionalTension {
    double stress = 1; ///< flow stress over that of the hardening curve
    double r_value = 1; ///< width strain over thickness strain
};

/// Equal tension in all directions of the sheet.
struct BiaxialTension {
    double stress = 1; ///< flow stress over that of the hardening curve
    double strain_ratio = 1; ///< across the rolling direction over along it
};

/// Units: rad from the rolling direction, -. Source: definitions; flow along the gradient of
/// yield_law.hpp, volume kept. Fails: never.
[[nodiscard]] DirectionalTension tension_at(const YieldLaw& law, double angle);

/// Units: -. Source: as above. Fails: never.
[[nodiscard]] BiaxialTension biaxial_tension(const YieldLaw& law);

} // namespace flangewright::material
