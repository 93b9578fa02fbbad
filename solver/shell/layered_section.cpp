#include "solver/shell/layered_section.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace flangewright::shell {

namespace {

constexpr std::size_t n_layers_most = 64; // as gauss_layers() makes

material::ShiftedUpdate update_shifted(
    const Section& section,
    const material::SplitStrain& log_strain,
    const material::PointMemory& memory,
    std::span<const material::SplitStress> back_stresses,
    bool with_tangent
) {
    return material::update_point(
        section.elasticity,
        material::MixedHardening{*section.hardening, section.back_stresses},
        log_strain,
        material::ShiftedMemory{memory, back_stresses},
        with_tangent
    );
}

material::PointUpdate update_without_shift(
    const Section& section,
    const material::RollingTurn& rolling,
    const material::SplitStrain& log_strain,
    const material::PointMemory& memory,
    bool with_tangent
) {
    if (section.yield == nullptr) {
        return material::update_point(
            section.elasticity, *section.hardening, log_strain, memory, with_tangent
        );
    }
    return material::update_point(
        section.elasticity,
        *section.hardening,
        material::LaidYield{*section.yield, rolling},
        log_strain,
        memory,
        with_tangent
    );
}

// Enough where all is elastic: stress is nearly linear over the thickness, and the highest power in
// the tangent, z^4, is integrated exactly.
const LayerRule& elastic_layers() {
    static const LayerRule rule = gauss_layers(3);
    return rule;
}

// Whether no layer has flowed or would: three places show it, since the strain is quadratic over
// the thickness. Green's strain stands in for the logarithm, from which it differs by its own
// square; the margin covers that.
bool is_elastic(
    const Section& section,
    const SectionStrain& strain,
    std::span<const material::PointMemory> memory
) {
    // An annealed point has plastic strain behind it and no equivalent one.
    const auto has_flowed = [](const material::PointMemory& point) {
        return point.equivalent > 0 || point.plastic_mean != 0 || point.plastic_difference != 0
            || point.plastic_shear != 0;
    };
    if (memory.size() <= elastic_layers().position.size()
        || std::ranges::any_of(memory, has_flowed)) {
        return false;
    }
    constexpr double margin = 0.95;
    const double yield = margin * section.hardening->at(0).stress;
    const double sum = 0.5 * section.elasticity.mean_stiffness();
    const double shear = 0.5 * section.elasticity.shear_stiffness();
    // Fibres move off their first height by the thinning, far less than this.
    const double outermost = 0.51 * section.thickness;
    return std::ranges::all_of(std::array{-outermost, 0.0, outermost}, [&](double z) {
        const Eigen::Vector3d E = strain.membrane + z * (strain.bending + z * strain.quadratic);
        if (section.yield != nullptr) {
            const material::SplitStress T(sum * E[0], shear * E[1], shear * E[2]);
            return material::equivalent_stress({*section.yield, strain.rolling}, T) < yield;
        }
        const double mean = sum * E[0];
        const double rest2 = shear * shear * (E[1] * E[1] + E[2] * E[2]);
        return 0.25 * mean * mean + 0.75 * rest2 < yield * yield;
    });
}

} // namespace

material::PointUpdate update_layer(
    const Section& section,
    const material::RollingTurn& rolling,
    const material::SplitStrain& log_strain,
    const material::PointMemory& memory,
    std::span<const material::SplitStress> back_stresses
) {
    if (section.back_stresses.empty()) {
        return update_without_shift(section, rolling, log_strain, memory, false);
    }
    return update_shifted(section, log_strain, memory, back_stresses, false).point;
}

SectionForce integrate_section(
    const Section& section,
    const SectionStrain& strain,
    const FibreStretch& fibre,
    std::span<const material::PointMemory> memory,
    bool with_tangent,
    std::span<const material::SplitStress> back_stresses
) {
    const std::size_t n_back = section.back_stresses.size();
    SectionForce force;
    std::array<Eigen::Matrix3d, 5> moments; // tangent weighted with z^0 to z^4
    for (Eigen::Matrix3d& moment : moments) {
        moment.setZero();
    }
    const LayerRule& layers =
        is_elastic(section, strain, memory) ? elastic_layers() : section.layers;
    for (std::size_t k = 0; k < layers.position.size(); ++k) {
        const double z =
            fibre_height(fibre, layers.position[k] * section.thickness, section.thickness);
        const double weight = layers.weight[k] * section.thickness;
        const material::LogStrain log_strain = log_strain_at(strain, z);
        if (!log_strain.is_valid()) {
            force.has_converged = false;
            return force;
        }
        const material::PointUpdate point = n_back == 0
            ? update_without_shift(
                section, strain.rolling, log_strain.value(), memory[k], with_tangent
            )
            : update_shifted(
                  section,
                  log_strain.value(),
                  memory[k],
                  back_stresses.subspan(k * n_back, n_back),
                  with_tangent
            )
                  .point;
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

FibreStretch stretch_through(const Section& section, std::span<const double> stretch_of_layers) {
    double sum = 0;
    double first_moment = 0;
    double second_moment = 0;
    for (std::size_t k = 0; k < stretch_of_layers.size(); ++k) {
        const double z0 = section.layers.position[k] * section.thickness;
        const double weight = section.layers.weight[k];
        sum += weight * stretch_of_layers[k];
        first_moment += weight * z0 * stretch_of_layers[k];
        second_moment += weight * z0 * z0;
    }
    return {sum, second_moment > 0 ? first_moment / second_moment : 0};
}

bool remember_section(
    const Section& section,
    const SectionStrain& strain,
    FibreStretch& fibre,
    std::span<material::PointMemory> memory,
    std::span<material::SplitStress> back_stresses
) {
    const std::size_t n_back = section.back_stresses.size();
    std::array<material::PointMemory, n_layers_most> after;
    std::array<material::SplitStress, n_layers_most * material::n_back_stresses_most> back_after;
    std::array<double, n_layers_most> stretch{};
    for (std::size_t k = 0; k < memory.size(); ++k) {
        const double z0 = section.layers.position[k] * section.thickness;
        const material::LogStrain log_strain =
            log_strain_at(strain, fibre_height(fibre, z0, section.thickness));
        if (!log_strain.is_valid()) {
            return false;
        }
        material::PointUpdate point;
        if (n_back == 0) {
            point =
                update_without_shift(section, strain.rolling, log_strain.value(), memory[k], false);
        } else {
            const material::ShiftedUpdate shifted = update_shifted(
                section,
                log_strain.value(),
                memory[k],
                back_stresses.subspan(k * n_back, n_back),
                false
            );
            point = shifted.point;
            std::copy_n(shifted.back_stresses.begin(), n_back, &back_after[k * n_back]);
        }
        if (!point.has_converged) {
            return false;
        }
        after[k] = point.memory;
        stretch[k] = std::exp(point.thickness_strain);
    }
    std::copy_n(after.begin(), memory.size(), memory.begin());
    std::copy_n(back_after.begin(), memory.size() * n_back, back_stresses.begin());
    fibre = stretch_through(section, std::span(stretch).first(memory.size()));
    return true;
}

} // namespace flangewright::shell
