#include "mesh/outline/bend_line.hpp"

#include "mesh/base/check.hpp"

#include <cmath>
#include <limits>

namespace flangewright::outline {

BendLine BendLine::straight(double length) {
    BendLine line;
    line.length_ = length;
    return line;
}

BendLine BendLine::arc(double radius, double sweep, Curve curve) {
    check(curve != Curve::straight, "an arc is concave or convex");
    BendLine line;
    line.length_ = radius * sweep;
    line.curvature_ = curve == Curve::concave ? 1.0 / radius : -1.0 / radius;
    return line;
}

Curve BendLine::curve() const {
    if (curvature_ == 0) {
        return Curve::straight;
    }
    return curvature_ > 0 ? Curve::concave : Curve::convex;
}

double BendLine::radius() const {
    return curvature_ == 0 ? std::numeric_limits<double>::infinity() : 1.0 / std::abs(curvature_);
}

double BendLine::sweep() const {
    return length_ * std::abs(curvature_);
}

LineFrame BendLine::frame(double station) const {
    const double from_middle = station - 0.5 * length_;
    const double turn = curvature_ * from_middle;
    LineFrame frame;
    frame.tangent = {std::cos(turn), std::sin(turn), 0};
    frame.outward = {-std::sin(turn), std::cos(turn), 0};
    if (curvature_ == 0) {
        frame.point = {from_middle, 0, 0};
    } else {
        frame.point = {std::sin(turn) / curvature_, (1 - std::cos(turn)) / curvature_, 0};
    }
    return frame;
}

Eigen::Vector3d BendLine::point(const LinePosition& position) const {
    const LineFrame at = frame(position.station);
    return at.point + position.distance * at.outward;
}

LinePosition BendLine::locate(const Eigen::Vector3d& point) const {
    if (curvature_ == 0) {
        return {point.x() + 0.5 * length_, point.y()};
    }
    // The centre of the arc lies at 1/curvature along y, on the flange's side when concave.
    const double side = curvature_ > 0 ? 1.0 : -1.0;
    const double across = 1.0 / curvature_ - point.y();
    const double turn = std::atan2(side * point.x(), side * across);
    const double from_centre = std::hypot(point.x(), across);
    return {0.5 * length_ + turn / curvature_, side * (radius() - from_centre)};
}

} // namespace flangewright::outline
