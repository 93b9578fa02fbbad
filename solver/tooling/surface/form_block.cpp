#include "solver/tooling/surface/form_block.hpp"

#include <cmath>

namespace flangewright::tooling {

FormBlock::FormBlock(double nose_radius, double wall_angle)
    : nose_radius_(nose_radius), wall_angle_(wall_angle) {}

SurfaceReading FormBlock::at(const SectionPoint& point) const {
    const SectionPoint centre(0, -nose_radius_);
    const double turned = std::atan2(point[0], point[1] + nose_radius_);
    if (turned > 0 && turned < wall_angle_) {
        return round_reading(point, centre, nose_radius_);
    }
    // The block is what lies below its face and behind its wall; an undercut wall runs back under
    // the face.
    const Eigen::Vector2d normal(std::sin(wall_angle_), std::cos(wall_angle_));
    const SurfaceReading face = flat_reading(point, SectionPoint::Zero(), Eigen::Vector2d(0, 1));
    const SurfaceReading wall = flat_reading(point, centre + nose_radius_ * normal, normal);
    return face.distance > wall.distance ? face : wall;
}

} // namespace flangewright::tooling
