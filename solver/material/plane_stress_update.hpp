// Von Mises plasticity in plane stress at one point: log strain in, log stress and tangent out.
#pragma once

#include "solver/material/hardening_law.hpp"
#include "solver/material/plane_tensor.hpp"

namespace flangewright::material {

/// Isotropic elastic constants in the split form. MPa.
struct PlaneElasticity {
    double youngs_modulus = 0;
    double poisson_ratio = 0;

    /// Stress sum over strain mean, 2 E / (1 - nu). Source: plane stress Hooke.
    [[nodiscard]] double mean_stiffness() const { return 2 * youngs_modulus / (1 - poisson_ratio); }
    /// Stress difference over strain difference and shear over shear, 4 G.
    [[nodiscard]] double shear_stiffness() const {
        return 2 * youngs_modulus / (1 + poisson_ratio);
    }
};

/// What one material point remembers: plastic log strain (split) and its length.
struct PointMemory {
    double plastic_mean = 0;
    double plastic_difference = 0;
    double plastic_shear = 0;
    double equivalent = 0; ///< equivalent plastic strain
};

/// Answer of one point.
struct PointUpdate {
    SplitStress stress = SplitStress::Zero(); ///< MPa
    Eigen::Matrix3d tangent = Eigen::Matrix3d::Zero(); ///< MPa, consistent; only when asked
    PointMemory memory;
    double thickness_strain = 0; ///< log strain through the thickness
    bool has_converged = false; ///< false: the increment must be cut
};

/// Return mapping for von Mises with isotropic hardening.
/// Units: strain in -, stress in MPa. Shape: 3, split (plane_tensor.hpp).
/// Source: simo-taylor-1986 (plane stress return), miehe-apel-lambrecht-2002 (log-strain space);
/// diagonal form derived here (docs/theory.md, "Plane stress").
/// Fails: has_converged is false; the memory is then unchanged.
[[nodiscard]] PointUpdate update_point(
    const PlaneElasticity& elasticity,
    const HardeningLaw& hardening,
    const SplitStrain& log_strain,
    const PointMemory& before,
    bool with_tangent
);

} // namespace flangewright::material
