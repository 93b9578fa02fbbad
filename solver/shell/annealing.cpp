#include "solver/shell/annealing.hpp"

#include "mesh/base/check.hpp"
#include "mesh/base/parallel.hpp"
#include "solver/material/log_strain.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <span>

namespace flangewright::shell {

namespace {

/// Log strain of a fibre that began at height `z`.
material::LogStrain
strain_of(const SectionStrain& strain, const FibreStretch& fibre, double z, double t) {
    const double height = fibre_height(fibre, z, t);
    material::SplitStrain C =
        strain.membrane + height * (strain.bending + height * strain.quadratic);
    C[0] += 1;
    return material::LogStrain(C);
}

/// Line through the thickness stretch of layers whose strain is all plastic, as remember_section()
/// lays it.
FibreStretch stretch_of(const Section& section, std::span<const material::PointMemory> memory) {
    double sum = 0;
    double first_moment = 0;
    double second_moment = 0;
    for (std::size_t k = 0; k < memory.size(); ++k) {
        const double z = section.layers.position[k] * section.thickness;
        const double stretch = std::exp(-2 * memory[k].plastic_mean);
        sum += section.layers.weight[k] * stretch;
        first_moment += section.layers.weight[k] * z * stretch;
        second_moment += section.layers.weight[k] * z * z;
    }
    return {sum, second_moment > 0 ? first_moment / second_moment : 0};
}

bool wipe_point(
    const Section& section,
    const SectionStrain& strain,
    FibreStretch& fibre,
    std::span<material::PointMemory> memory
) {
    // Heights hang on the thinning, and that on the strain at these heights. Each pass leaves a
    // hundredth of the fault.
    for (int pass = 0; pass < 8; ++pass) {
        for (std::size_t k = 0; k < memory.size(); ++k) {
            const double z = section.layers.position[k] * section.thickness;
            const material::LogStrain log_strain = strain_of(strain, fibre, z, section.thickness);
            if (!log_strain.is_valid()) {
                return false;
            }
            const material::SplitStrain e = log_strain.value();
            memory[k] = {e[0], e[1], e[2], 0};
        }
        fibre = stretch_of(section, memory);
    }
    return true;
}

} // namespace

void wipe_stress(const ShellModel& model, SheetState& state, int n_threads) {
    const auto n_layers = static_cast<std::size_t>(model.section.n_layers());
    std::atomic<bool> is_good = true;
    for_each_index(model.n_elements(), n_threads, [&](int e) {
        const auto at = static_cast<std::size_t>(e);
        const QuadNodes nodes = gather_nodes(model.quads[at], state.positions, state.directors);
        for (int point = 0; point < 4; ++point) {
            const std::size_t fibre = 4 * at + static_cast<std::size_t>(point);
            const auto memory = std::span(state.points).subspan(fibre * n_layers, n_layers);
            const SectionStrain strain = quad_strain(model.references[at], nodes, point);
            if (!wipe_point(model.section, strain, state.fibres[fibre], memory)) {
                is_good = false;
            }
        }
    });
    check(is_good, "a sheet in balance has a strain");
    std::ranges::fill(state.back_stresses, material::SplitStress::Zero());
}

} // namespace flangewright::shell
