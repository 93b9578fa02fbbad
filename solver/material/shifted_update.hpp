// The plane-stress update with back stresses: the yield surface grows and is shifted.
#pragma once

#include "solver/material/back_stress.hpp"
#include "solver/material/plane_stress_update.hpp"

#include <array>
#include <span>

namespace flangewright::material {

/// How a sheet hardens: the size of its yield surface and what shifts it.
struct MixedHardening {
    const HardeningLaw& size;
    std::span<const BackStress> shifts; ///< at most n_back_stresses_most
};

/// What one point remembers with back stresses. Each is kept as the plane stress tensor whose
/// deviator it is, split, which keeps the return diagonal (docs/theory.md, "Back stress").
struct ShiftedMemory {
    PointMemory flow;
    std::span<const SplitStress> back_stresses; ///< MPa, one for each shift
};

/// Answer of one point with back stresses.
struct ShiftedUpdate {
    PointUpdate point; ///< the tangent is unsymmetric where flow turns against a back stress
    std::array<SplitStress, n_back_stresses_most> back_stresses; ///< MPa; as many as shifts are set
};

/// Return mapping for von Mises with isotropic and kinematic hardening, backward Euler throughout.
/// Units: strain in -, stress in MPa. Shape: 3, split (plane_tensor.hpp).
/// Source: armstrong-frederick-1966 and chaboche-1986 (rates), simo-taylor-1986 (plane stress
/// return); diagonal form and tangent derived here (docs/theory.md, "Back stress").
/// Fails: has_converged is false; the memory is then unchanged.
[[nodiscard]] ShiftedUpdate update_point(
    const PlaneElasticity& elasticity,
    const MixedHardening& hardening,
    const SplitStrain& log_strain,
    const ShiftedMemory& before,
    bool with_tangent
);

} // namespace flangewright::material
