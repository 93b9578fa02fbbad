// A curve through points that has kinks, as smooth curves between them.
#pragma once

#include "mesh/outline/rounded_kinks.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace flangewright::outline {

/// Smooth curves and the kinks between them.
struct KinkedCurve {
    std::vector<std::size_t> kinks; ///< points, from 0, in order
    std::vector<SmoothRun> runs; ///< one more than kinks
    /// Per run, per piece: it lies between this point and the next.
    std::vector<std::vector<std::size_t>> from_point;
};

/// The curve through all points, split where find_kink() sees a kink until no part has one left.
/// The turn at a kink is that between the curves on both sides of it.
/// Units: mm, 1/mm, rad. Source: as curve_through(). Fails: never for two or more points that
/// differ from their neighbours.
[[nodiscard]] KinkedCurve curve_between_kinks(std::span<const Eigen::Vector2d> points);

} // namespace flangewright::outline
