#include "solver/shell/annealing.hpp"

#include "mesh/base/check.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace flangewright::shell {

namespace {

bool wipe_point(const Section& section, const PointView& point) {
    std::vector<double> stretch(point.memory.size());
    // Heights hang on the thinning, and that on the strain at these heights. Each pass leaves a
    // hundredth of the fault.
    for (int pass = 0; pass < 8; ++pass) {
        for (std::size_t k = 0; k < point.memory.size(); ++k) {
            const double z = section.layers.position[k] * section.thickness;
            const material::LogStrain log_strain =
                log_strain_at(point.strain, fibre_height(point.fibre, z, section.thickness));
            if (!log_strain.is_valid()) {
                return false;
            }
            const material::SplitStrain e = log_strain.value();
            point.memory[k] = {e[0], e[1], e[2], 0};
            stretch[k] = std::exp(-2 * e[0]); // plastic flow keeps the volume
        }
        point.fibre = stretch_through(section, stretch);
    }
    return true;
}

} // namespace

void wipe_stress(const ShellModel& model, SheetState& state, int n_threads) {
    const bool is_good = visit_points(model, state, n_threads, [&model](const PointView& point) {
        return wipe_point(model.section, point);
    });
    check(is_good, "a sheet in balance has a strain");
    std::ranges::fill(state.back_stresses, material::SplitStress::Zero());
}

} // namespace flangewright::shell
