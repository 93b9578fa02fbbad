// A joined bend line where it lies on its drawing.
#pragma once

#include "io/drawing/drawn_line.hpp"

namespace flangewright::drawing {

/// Tells stations and distances of what else is drawn there. Units: mm on the drawing.
class PlacedLine {
public:
    /// Source: none needed. Fails: never for a line that was joined.
    explicit PlacedLine(const DrawnLine& drawn);

    [[nodiscard]] const outline::BendLine& line() const { return line_; }
    /// Source: none needed. Fails: never.
    [[nodiscard]] outline::LinePosition locate(const Eigen::Vector2d& place) const;
    /// On the drawing, square to the line at a station toward the flange, a unit vector.
    /// Source: none needed. Fails: never.
    [[nodiscard]] Eigen::Vector2d outward_at(double station) const;

private:
    outline::BendLine line_;
    Eigen::Vector2d start_;
    Eigen::Matrix2d turn_; ///< directions on the drawing to those of the line
    Eigen::Vector2d line_start_;
};

} // namespace flangewright::drawing
