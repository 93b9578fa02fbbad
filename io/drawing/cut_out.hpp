// What the outlines on a layer cut out of a blank: round holes and slots with a round bottom.
#pragma once

#include "io/drawing/stroke.hpp"
#include "mesh/base/result.hpp"

#include <array>
#include <string>
#include <vector>

namespace flangewright::drawing {

/// A round hole on a drawing, mm.
struct DrawnCircle {
    Eigen::Vector2d centre;
    double diameter = 0;
    std::string name; ///< "the circle 2F about (20, 30) mm"
};

/// A slot with a half-round bottom, open at the other end, mm.
struct DrawnSlot {
    Eigen::Vector2d centre; ///< of its round bottom
    double width = 0;
    Eigen::Vector2d axis; ///< unit, from the bottom to the mouth
    std::array<Eigen::Vector2d, 2> mouth; ///< ends of its sides
    std::string name; ///< "the slot of the line 2F from (20, 30) mm to (20, 34) mm"
};

/// Circles, and closed outlines of arcs about one centre (within 0.05 mm and 0.5 degrees).
/// Units: mm. Source: docs/case-file.md. Fails: with the first thing that is no circle.
[[nodiscard]] Result<std::vector<DrawnCircle>, DrawingProblem>
circles_of(const std::vector<Stroke>& strokes);

/// Half-round bottoms with straight sides along the axis, or none; a line across the mouth may
/// close them. Same tolerances. Units: mm. Source: docs/case-file.md. Fails: with the first outline
/// that is no such slot.
[[nodiscard]] Result<std::vector<DrawnSlot>, DrawingProblem>
slots_of(const std::vector<Stroke>& strokes);

} // namespace flangewright::drawing
