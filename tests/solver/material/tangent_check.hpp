// Is a point's tangent the derivative of its stress? One check for every return map.
#pragma once

#include "solver/material/plane_stress_update.hpp"

#include <functional>
#include <optional>

namespace flangewright::material {

/// Distance of the tangent from central differences, over the tangent; nothing where the
/// differences straddle first yield, at which the stress has a kink.
inline std::optional<double> tangent_error(
    const std::function<PointUpdate(const SplitStrain&)>& at,
    const SplitStrain& strain,
    const PointMemory& memory
) {
    constexpr double h = 1e-7;
    const PointUpdate here = at(strain);
    const auto is_plastic = [&](const PointUpdate& update) {
        return update.memory.equivalent > memory.equivalent;
    };
    Eigen::Matrix3d differences;
    for (int i = 0; i < 3; ++i) {
        const PointUpdate up = at(strain + h * SplitStrain::Unit(i));
        const PointUpdate down = at(strain - h * SplitStrain::Unit(i));
        if (is_plastic(up) != is_plastic(here) || is_plastic(down) != is_plastic(here)) {
            return std::nullopt;
        }
        differences.col(i) = (up.stress - down.stress) / (2 * h);
    }
    return (differences - here.tangent).norm() / here.tangent.norm();
}

} // namespace flangewright::material
