// One in-plane point of the shell: strains linear and quadratic over the thickness in, stress
// resultants and their tangent out. Wraps any hardening law and any yield law.
#pragma once

#include "solver/material/anisotropic_update.hpp"
#include "solver/material/log_strain.hpp"
#include "solver/material/shifted_update.hpp"
#include "solver/shell/layer_rule.hpp"
#include "solver/shell/sheet_state.hpp"

#include <memory>
#include <span>
#include <vector>

namespace flangewright::shell {

/// Material and layers of a sheet. mm, MPa.
struct Section {
    material::PlaneElasticity elasticity;
    std::shared_ptr<const material::HardeningLaw> hardening;
    double thickness = 1;
    LayerRule layers;
    std::vector<material::BackStress> back_stresses = {}; ///< none: isotropic hardening
    std::shared_ptr<const material::YieldLaw> yield =
        {}; ///< none: von Mises; no back stresses then
    Eigen::Vector3d rolling_direction = Eigen::Vector3d::UnitX(); ///< in the flat blank

    [[nodiscard]] int n_layers() const { return static_cast<int>(layers.position.size()); }
};

/// Green-Lagrange strain of a fibre at height z: split(E) = membrane + z bending + z^2 quadratic,
/// each as (E11 + E22, E11 - E22, 2 E12).
struct SectionStrain {
    Eigen::Vector3d membrane = Eigen::Vector3d::Zero();
    Eigen::Vector3d bending = Eigen::Vector3d::Zero(); ///< 1/mm
    Eigen::Vector3d quadratic = Eigen::Vector3d::Zero(); ///< 1/mm^2
    material::RollingTurn rolling = {}; ///< how the rolling direction lies to the strain's axes
};

/// Stress integrated over the thickness with 1, z and z^2, and the tangent over SectionStrain.
struct SectionForce {
    Eigen::Matrix<double, 9, 1> resultant = Eigen::Matrix<double, 9, 1>::Zero();
    Eigen::Matrix<double, 9, 9> tangent = Eigen::Matrix<double, 9, 9>::Zero();
    bool has_converged = true;
};

/// What one layer answers, without tangent. `back_stresses` are the layer's own, as many as the
/// section has. Units, shape: plane_stress_update.hpp. Source: shifted_update.hpp where the section
/// has back stresses, anisotropic_update.hpp where it has a yield law, else
/// plane_stress_update.hpp. Fails: has_converged is false.
[[nodiscard]] material::PointUpdate update_layer(
    const Section& section,
    const material::RollingTurn& rolling,
    const material::SplitStrain& log_strain,
    const material::PointMemory& memory,
    std::span<const material::SplitStress> back_stresses
);

/// Fibre heights follow the thinning `fibre` of the last accepted increment. `back_stresses` runs
/// layer by layer, as many to a layer as the section has.
/// Units: strain in -, heights in mm, resultants N/mm, N, N mm. Shape: 9 = 3 x (membrane, bending,
/// quadratic). Source: miehe-apel-lambrecht-2002 point by point; layer-wise integration.
/// Fails: has_converged is false when a point could not be updated.
[[nodiscard]] SectionForce integrate_section(
    const Section& section,
    const SectionStrain& strain,
    const FibreStretch& fibre,
    std::span<const material::PointMemory> memory,
    bool with_tangent,
    std::span<const material::SplitStress> back_stresses = {}
);

/// Writes the memory that the strain leaves, and the fibre stretch that follows from it.
/// Units, shape, source as integrate_section(). Fails: returns false and leaves `memory` and
/// `back_stresses` as they were when a point could not be updated.
bool remember_section(
    const Section& section,
    const SectionStrain& strain,
    FibreStretch& fibre,
    std::span<material::PointMemory> memory,
    std::span<material::SplitStress> back_stresses = {}
);

/// Log strain of the fibre at a height. Units: -, mm. Source: right Cauchy-Green tensor C = 1 + 2
/// E. Fails: is_valid() is false for no strain that a sheet can have.
[[nodiscard]] inline material::LogStrain log_strain_at(const SectionStrain& strain, double height) {
    material::SplitStrain C =
        strain.membrane + height * (strain.bending + height * strain.quadratic);
    C[0] += 1;
    return material::LogStrain(C);
}

/// Least-squares line through the layers' thickness stretch, weighted as the layers are.
/// Units: -, 1/mm. Source: derived here (docs/theory.md, "Thickness"). Fails: never.
[[nodiscard]] FibreStretch
stretch_through(const Section& section, std::span<const double> stretch_of_layers);

/// Height, over the middle between the two faces, of the fibre that lay at `z` in the flat sheet of
/// thickness `t`. In a bend the inner half thickens and the outer half thins, so the fibre once at
/// mid-thickness moves off the middle; the faces stay at plus and minus half the present thickness.
/// Units: mm. Source: derived here (docs/theory.md, "Thickness"). Fails: never.
[[nodiscard]] inline double fibre_height(const FibreStretch& fibre, double z, double t) {
    return fibre.mean * z + 0.5 * fibre.slope * (z * z - 0.25 * t * t);
}

} // namespace flangewright::shell
