#include "solver/tooling/surface/trough.hpp"

#include "solver/tooling/surface/form_block.hpp"

#include <numbers>

namespace flangewright::tooling {

namespace {

// A shoulder is a form block of square wall; the one on the right faces left.
MovedSurface shoulder(double nose_radius, const ShapeAxes& axes, double tangent) {
    return {
        std::make_shared<FormBlock>(nose_radius, 0.5 * std::numbers::pi),
        axes,
        Eigen::Vector2d(tangent, 0)};
}

} // namespace

Trough::Trough(double floor_radius, double shoulder_radius)
    : floor_radius_(floor_radius), shoulder_radius_(shoulder_radius),
      right_(shoulder(shoulder_radius, mirrored_axes(), floor_radius + shoulder_radius)),
      left_(shoulder(shoulder_radius, ShapeAxes::Identity(), -floor_radius - shoulder_radius)) {}

SurfaceReading Trough::at(const SectionPoint& point) const {
    if (point[1] >= -shoulder_radius_) {
        return point[0] < 0 ? left_.at(point) : right_.at(point);
    }
    // The sheet is on the hollow side of the arc.
    const SurfaceReading round =
        round_reading(point, SectionPoint(0, -shoulder_radius_), floor_radius_);
    return {-round.distance, -round.normal, -round.curvature};
}

} // namespace flangewright::tooling
