// The plane-stress update for any yield law of a rolled sheet, with isotropic hardening.
#pragma once

#include "solver/material/plane_stress_update.hpp"
#include "solver/material/yield_law.hpp"

#include <cmath>

namespace flangewright::material {

/// How the rolling direction lies to the axes of a strain: cosine and sine of twice the angle from
/// the first axis to it, which turn difference and shear of a split tensor.
struct RollingTurn {
    double cosine = 1;
    double sine = 0;

    /// Units: rad. Source: Mohr's circle. Fails: never.
    [[nodiscard]] static RollingTurn by(double angle) {
        return {std::cos(2 * angle), std::sin(2 * angle)};
    }
    /// Components along the rolling direction and across it. Shape: 3, split.
    [[nodiscard]] Eigen::Vector3d to_rolling(const Eigen::Vector3d& split) const {
        return {split[0], cosine * split[1] + sine * split[2], cosine * split[2] - sine * split[1]};
    }
    /// Back again. Shape: 3, split.
    [[nodiscard]] Eigen::Vector3d from_rolling(const Eigen::Vector3d& split) const {
        return RollingTurn{cosine, -sine}.to_rolling(split);
    }
};

/// A yield law laid into the axes of a strain.
struct LaidYield {
    const YieldLaw& law;
    RollingTurn turn;
};

/// Equivalent stress. Units: MPa. Shape: 3, split, in the axes of the strain. Source:
/// yield_law.hpp. Fails: never.
[[nodiscard]] double equivalent_stress(const LaidYield& yield, const SplitStress& stress);

/// Plastic strain rate over that of the equivalent plastic strain at a stress. Units, shape,
/// source, fails: as above.
[[nodiscard]] SplitStrain flow_direction(const LaidYield& yield, const SplitStress& stress);

/// Return mapping, backward Euler, flow along the gradient of the equivalent stress.
/// Units: strain in -, stress in MPa. Shape: 3, split (plane_tensor.hpp); memory in the same axes.
/// Source: simo-hughes-1998, closest-point projection; line search, start and form derived here
/// (docs/theory.md, "Return to a rolled sheet's surface").
/// Fails: has_converged is false; the memory is then unchanged.
[[nodiscard]] PointUpdate update_point(
    const PlaneElasticity& elasticity,
    const HardeningLaw& hardening,
    const LaidYield& yield,
    const SplitStrain& log_strain,
    const PointMemory& before,
    bool with_tangent
);

} // namespace flangewright::material
