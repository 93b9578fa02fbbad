// An ideal strip bent to a radius in plane strain: moment per width and what unloading takes back.
#pragma once

#include "solver/material/sheet_material.hpp"

#include <vector>

namespace flangewright::findings {

/// One point of the stress path of a fibre stretched in plane strain.
struct FibrePoint {
    double strain = 0; ///< log, along the fibre
    double stress = 0; ///< along the fibre, MPa
    double transverse_stress = 0; ///< along the bend line, where the strain is held at zero, MPa
    double plastic_strain = 0; ///< equivalent
};

/// A strip bent over a radius, loaded, and what it loses when let go.
struct BentStrip {
    double moment = 0; ///< about the mid-surface, N mm per mm of width
    double curvature_loss = 0; ///< elastic unloading, 1/mm
    double springback_per_angle = 0; ///< angle lost per angle turned, arc length kept
    double outer_strain = 0; ///< log, outer fibre
    double outer_stress = 0; ///< loaded, MPa
    double outer_stress_released = 0; ///< MPa
};

/// Stress path of a fibre stretched to `largest_strain` in `n_steps` equal strain steps: flow
/// theory with the sheet's yield law (von Mises without one), no stress through the thickness, no
/// strain along the bend line and no shear. Back stresses count as in steady tension, since nothing
/// turns back. `grain`: from the bend line to the rolling direction. Units: strain in -, stress in
/// MPa, rad. Source: derived here (docs/theory-findings.md, "Bent strip"). Fails: never for a
/// positive strain and at least one step.
[[nodiscard]] std::vector<FibrePoint> stretch_in_plane_strain(
    const material::SheetMaterial& material, double largest_strain, int n_steps, double grain = 0
);

/// Bends a strip so that its mid-surface keeps its length and has the radius `mid_radius`. `grain`
/// as above. Units: mm, MPa, N mm per mm, rad. Source: marciniak-duncan-hu-2002 (bending without
/// tension, from memory; layer by layer here). Fails: never; a radius of half the thickness or less
/// is a caller's bug.
[[nodiscard]] BentStrip bend_strip(
    const material::SheetMaterial& material, double thickness, double mid_radius, double grain = 0
);

} // namespace flangewright::findings
