#include "solver/tooling/surface/leaf.hpp"

#include <cmath>

namespace flangewright::tooling {

SurfaceReading Leaf::at(const SectionPoint& point) const {
    return at_stroke(point, angle_).surface;
}

ChangingReading Leaf::at_stroke(const SectionPoint& point, double stroke) const {
    const Eigen::Vector2d outward(std::sin(stroke), std::cos(stroke));
    const Eigen::Vector2d along(std::cos(stroke), -std::sin(stroke)); // outward's slope
    const SectionPoint centre(0, -nose_radius_);
    const Eigen::Vector2d arm = point - centre;
    return {
        flat_reading(point, centre + reach_ * outward, -outward),
        -arm.dot(along),
        arm.dot(outward),
        -along};
}

Placement Leaf::placement_at_stroke(double stroke) const {
    // Turned about the nose's centre (0, -r) instead of the origin.
    return {stroke, nose_radius_ * Eigen::Vector2d(std::sin(stroke), std::cos(stroke) - 1)};
}

} // namespace flangewright::tooling
