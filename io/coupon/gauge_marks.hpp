// The marks along the edge of a test flange whose distance tells its stretch.
#pragma once

#include "io/coupon/test_flange.hpp"
#include "mesh/outline/bend_line.hpp"

#include <optional>
#include <utility>
#include <vector>

namespace flangewright::coupon {

inline constexpr double mark_distance = 5; // mm, along the flat edge

/// One mark.
struct GaugeMark {
    int number = 0; ///< from the start: number times mark_distance along the flat edge
    double station = 0; ///< mm
    std::optional<std::size_t> step; ///< of the flange; none in a run-out
};

/// All marks of the flat edge, from its start. Units: mm. Source: plane geometry: at a flat width w
/// an arc of radius R has an edge (R - w) / R as long. Fails: never where the edge has a length.
[[nodiscard]] std::vector<GaugeMark>
gauge_marks(const outline::BendLine& line, const TestFlange& flange);

/// Pairs two gaps apart where a step has room, else one: the rows of the table to fill in. Units:
/// none. Source: common practice, no source. Fails: never.
[[nodiscard]] std::vector<std::pair<int, int>> mark_pairs(const std::vector<GaugeMark>& marks);

} // namespace flangewright::coupon
