#include "solver/tooling/surface/leaf.hpp"

#include <cmath>

namespace flangewright::tooling {

SurfaceReading Leaf::at(const SectionPoint& point) const {
    const Eigen::Vector2d outward(std::sin(angle_), std::cos(angle_));
    const SectionPoint foot = SectionPoint(0, -nose_radius_) + reach_ * outward;
    return flat_reading(point, foot, -outward);
}

Placement Leaf::placement() const {
    // Turned about the nose's centre (0, -r) instead of the origin.
    return {angle_, nose_radius_ * Eigen::Vector2d(std::sin(angle_), std::cos(angle_) - 1)};
}

} // namespace flangewright::tooling
