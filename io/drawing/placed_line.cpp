#include "io/drawing/placed_line.hpp"

namespace flangewright::drawing {

using Eigen::Vector2d;

PlacedLine::PlacedLine(const DrawnLine& drawn)
    : line_(outline::BendLine::chain(drawn.pieces)), start_(drawn.start) {
    const outline::LineFrame frame = line_.frame(0);
    const Vector2d to = frame.tangent.head<2>();
    const Vector2d& from = drawn.start_direction;
    const double cosine = from.dot(to);
    const double sine = from.x() * to.y() - from.y() * to.x();
    turn_ << cosine, -sine, sine, cosine;
    line_start_ = frame.point.head<2>();
}

outline::LinePosition PlacedLine::locate(const Vector2d& place) const {
    const Vector2d in_plan = line_start_ + turn_ * (place - start_);
    return line_.locate({in_plan.x(), in_plan.y(), 0});
}

Vector2d PlacedLine::outward_at(double station) const {
    return turn_.transpose() * line_.frame(station).outward.head<2>();
}

} // namespace flangewright::drawing
