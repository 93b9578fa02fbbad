#include "solver/shell/layered_section.hpp"

#include "solver/material/log_strain.hpp"

#include <array>
#include <cmath>

namespace flangewright::shell {

namespace {

material::SplitStrain right_cauchy_green(const SectionStrain& strain, double z) {
    material::SplitStrain C = strain.membrane + z * (strain.bending + z * strain.quadratic);
    C[0] += 1;
    return C;
}

} // namespace

SectionForce integrate_section(
    const Section& section,
    const SectionStrain& strain,
    const FibreStretch& fibre,
    std::span<const material::PointMemory> memory,
    bool with_tangent
) {
    SectionForce force;
    std::array<Eigen::Matrix3d, 5> moments; // tangent weighted with z^0 to z^4
    for (Eigen::Matrix3d& moment : moments) {
        moment.setZero();
    }
    for (std::size_t k = 0; k < section.layers.position.size(); ++k) {
        const double z =
            fibre_height(fibre, section.layers.position[k] * section.thickness, section.thickness);
        const double weight = section.layers.weight[k] * section.thickness;
        const material::LogStrain log_strain(right_cauchy_green(strain, z));
        if (!log_strain.is_valid()) {
            force.has_converged = false;
            return force;
        }
        const material::PointUpdate point = material::update_point(
            section.elasticity, *section.hardening, log_strain.value(), memory[k], with_tangent
        );
        if (!point.has_converged) {
            force.has_converged = false;
            return force;
        }
        const Eigen::Vector3d S = weight * log_strain.stress(point.stress);
        force.resultant.head<3>() += S;
        force.resultant.segment<3>(3) += z * S;
        force.resultant.tail<3>() += z * z * S;
        if (with_tangent) {
            Eigen::Matrix3d H = weight * log_strain.tangent(point.stress, point.tangent);
            for (Eigen::Matrix3d& moment : moments) {
                moment += H;
                H *= z;
            }
        }
    }
    if (with_tangent) {
        for (int i = 0; i < 3; ++i) {
            for (int j = 0; j < 3; ++j) {
                force.tangent.block<3, 3>(3 * i, 3 * j) = moments[static_cast<std::size_t>(i + j)];
            }
        }
    }
    return force;
}

bool remember_section(
    const Section& section,
    const SectionStrain& strain,
    FibreStretch& fibre,
    std::span<material::PointMemory> memory
) {
    std::array<material::PointMemory, 64> after;
    // Least-squares line through the layers' thickness stretch, weighted as the layers are.
    double sum = 0;
    double first_moment = 0;
    double second_moment = 0;
    for (std::size_t k = 0; k < memory.size(); ++k) {
        const double z0 = section.layers.position[k] * section.thickness;
        const material::LogStrain log_strain(
            right_cauchy_green(strain, fibre_height(fibre, z0, section.thickness))
        );
        if (!log_strain.is_valid()) {
            return false;
        }
        const material::PointUpdate point = material::update_point(
            section.elasticity, *section.hardening, log_strain.value(), memory[k], false
        );
        if (!point.has_converged) {
            return false;
        }
        after[k] = point.memory;
        const double stretch = std::exp(point.thickness_strain);
        const double weight = section.layers.weight[k];
        sum += weight * stretch;
        first_moment += weight * z0 * stretch;
        second_moment += weight * z0 * z0;
    }
    for (std::size_t k = 0; k < memory.size(); ++k) {
        memory[k] = after[k];
    }
    fibre.mean = sum;
    fibre.slope = second_moment > 0 ? first_moment / second_moment : 0;
    return true;
}

} // namespace flangewright::shell
