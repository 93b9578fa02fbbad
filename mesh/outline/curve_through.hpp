// A smooth curve through given points, as a chain of arcs.
#pragma once

#include "mesh/outline/bend_line.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace flangewright::outline {

/// A point at which the polygon through the points has a corner.
struct Kink {
    std::size_t point = 0; ///< from 0
    double turn = 0; ///< rad
};

/// Pieces of a curve, and where they come from.
struct CurveThrough {
    std::vector<Piece> pieces;
    std::vector<std::size_t> from_point; ///< per piece: it lies between this point and the next
    Eigen::Vector2d begin_direction = Eigen::Vector2d::UnitX(); ///< unit, at the first point
    Eigen::Vector2d end_direction = Eigen::Vector2d::UnitX(); ///< unit, at the last point
};

/// The first point that no smooth curve is meant to pass: the polygon turns there by more than 15
/// degrees while it turns less than a third of that, the same way, at both neighbours; or by more
/// than 90 degrees. Units: mm. Source: derived here (docs/theory.md, "Curve through points").
/// Fails: never for points that differ from their neighbours.
[[nodiscard]] std::optional<Kink> find_kink(std::span<const Eigen::Vector2d> points);

/// A curve without kinks through all points, travelled in their order; concave where it turns left.
/// A cubic spline gives the tangents, two arcs join each point to the next, and more where they
/// would leave the spline by over 0.01 mm. Two points give a straight line.
/// Units: mm, 1/mm. Source: derived here (docs/theory.md, "Curve through points"); biarcs from
/// memory. Fails: never for two or more points that differ from their neighbours.
[[nodiscard]] CurveThrough curve_through(std::span<const Eigen::Vector2d> points);

} // namespace flangewright::outline
