// What a drawing holds of a bend line: lines and curves, each travelled from one end to the other.
#pragma once

#include "mesh/outline/bend_line.hpp"

#include <Eigen/Core>

#include <optional>
#include <string>
#include <vector>

namespace flangewright::drawing {

/// One smooth line or curve of a drawing. Lengths in the unit of whoever holds it.
struct Stroke {
    std::string name; ///< "line", "arc", "curve"
    Eigen::Vector2d begin = Eigen::Vector2d::Zero();
    Eigen::Vector2d end = Eigen::Vector2d::Zero();
    Eigen::Vector2d direction_at_begin =
        Eigen::Vector2d::UnitX(); ///< unit, the way it is travelled
    Eigen::Vector2d direction_at_end = Eigen::Vector2d::UnitX();
    std::vector<outline::Piece> pieces; ///< positive curvature turns left
    std::string handle = {}; ///< by which the drawing knows it: "2F"; empty: it has none
};

/// The strokes of one layer.
struct Drawing {
    std::optional<double> mm_per_unit; ///< empty: the drawing names no unit
    std::vector<Stroke> strokes; ///< in the drawing's unit
    std::vector<std::string> layers; ///< that hold anything drawn, in order of appearance
    int n_not_understood = 0; ///< entities of the layer that are no line or curve
    std::string first_not_understood = {}; ///< "ellipse 2F"; empty: none
    int n_points = 0; ///< entities of the layer that are a mere point
};

/// What is wrong with a drawing, in the words of an InputProblem.
struct DrawingProblem {
    std::string found;
    std::string allowed;
    std::string remedy;
};

/// Units: as given. Source: none needed. Fails: never.
[[nodiscard]] Stroke line_stroke(const Eigen::Vector2d& begin, const Eigen::Vector2d& end);
/// From the angle `begin` turning left by `sweep`, rad. Source: none needed. Fails: never.
[[nodiscard]] Stroke
arc_stroke(const Eigen::Vector2d& centre, double radius, double begin, double sweep);
/// A polyline's arc: `bulge` is the tangent of a quarter of its turn, positive to the left; 0 is a
/// line. Source: from memory. Fails: never for ends that differ.
[[nodiscard]] Stroke
bulge_stroke(const Eigen::Vector2d& begin, const Eigen::Vector2d& end, double bulge);
/// The same, travelled the other way. Source: none needed. Fails: never.
[[nodiscard]] Stroke reversed(const Stroke& stroke);
/// Seen from behind, x to -x. Source: none needed. Fails: never.
[[nodiscard]] Stroke mirrored(const Stroke& stroke);
/// Places along it from its begin to its end, both among them; neighbours on a piece lie `step`
/// apart or nearer, but no piece has more than 500 steps. Units: as given, step in the same.
/// Source: none needed. Fails: never.
[[nodiscard]] std::vector<Eigen::Vector2d> points_along(const Stroke& stroke, double step);
/// "the arc 2F from (12, 30) mm to (40, 42) mm". Units: mm. Source: none needed. Fails: never.
[[nodiscard]] std::string name_of(const Stroke& stroke);
/// "(12, 30) mm". Units: mm. Source: none needed. Fails: never.
[[nodiscard]] std::string name_of(const Eigen::Vector2d& place);
/// All lengths multiplied. Source: none needed. Fails: never.
[[nodiscard]] Stroke scaled(const Stroke& stroke, double factor);

} // namespace flangewright::drawing
