#include "solver/tooling/surface/leaf.hpp"

#include <cmath>

namespace flangewright::tooling {

SurfaceReading Leaf::at(const SectionPoint& point) const {
    const Eigen::Vector2d outward(std::sin(angle_), std::cos(angle_));
    const SectionPoint foot = SectionPoint(0, -nose_radius_) + reach_ * outward;
    return flat_reading(point, foot, -outward);
}

} // namespace flangewright::tooling
