// The strokes of a layer joined end to end to one smooth line.
#pragma once

#include "io/drawing/rounded_kink.hpp"
#include "io/drawing/stroke.hpp"
#include "mesh/base/result.hpp"

#include <optional>
#include <string>
#include <vector>

namespace flangewright::drawing {

/// Which side of the way along the line the flange lies on.
enum class Side { left, right };

/// A line in mm with the flange to its left, and where each of its pieces lies on the drawing.
struct DrawnLine {
    std::vector<outline::Piece> pieces;
    std::vector<std::string> names; ///< per piece: "the arc from (12, 30) to (40, 42) mm"
    std::vector<RoundedKink> rounded_kinks; ///< in order along the line
    Eigen::Vector2d start = Eigen::Vector2d::Zero(); ///< where it begins on the drawing
    Eigen::Vector2d start_direction =
        Eigen::Vector2d::UnitX(); ///< unit, the way it goes from there
};

/// Joins strokes (in mm) whose ends lie within 0.05 mm of each other and whose directions there
/// differ by less than 0.2 degrees. The line is gone along from the end with the smaller x (if both
/// lie level, the smaller y); with the flange on the right the other way round. With a radius for
/// kinks, directions may differ: an arc of that radius takes the place of each kink.
/// Units: mm. Source: derived here. Fails: gaps, kinks, branches, closed lines, each with its
/// place; kinks that no arc of the radius fits.
[[nodiscard]] Result<DrawnLine, DrawingProblem> join(
    const std::vector<Stroke>& drawn, Side flange, std::optional<double> kink_radius = std::nullopt
);

} // namespace flangewright::drawing
