#include "solver/tooling/surface/form_block.hpp"

#include <cmath>
#include <utility>

namespace flangewright::tooling {

namespace {

/// A block with its wall at an angle, and how it changes with that angle.
ChangingReading read_block(const SectionPoint& point, double nose_radius, double wall_angle) {
    const SectionPoint centre(0, -nose_radius);
    const double turned = std::atan2(point[0], point[1] + nose_radius);
    if (turned > 0 && turned < wall_angle) {
        return {round_reading(point, centre, nose_radius)};
    }
    // The block is what lies below its face and behind its wall; an undercut wall runs back under
    // the face.
    const Eigen::Vector2d normal(std::sin(wall_angle), std::cos(wall_angle));
    const SurfaceReading face = flat_reading(point, SectionPoint::Zero(), Eigen::Vector2d(0, 1));
    const SurfaceReading wall = flat_reading(point, centre + nose_radius * normal, normal);
    if (face.distance > wall.distance) {
        return {face};
    }
    const Eigen::Vector2d along(std::cos(wall_angle), -std::sin(wall_angle)); // the normal's slope
    const Eigen::Vector2d arm = point - centre;
    return {wall, arm.dot(along), -arm.dot(normal), along};
}

} // namespace

FormBlock::FormBlock(double nose_radius, double wall_angle)
    : nose_radius_(nose_radius), wall_angle_(wall_angle) {}

FormBlock::FormBlock(double nose_radius, double wall_angle, outline::Profile wall_angles)
    : nose_radius_(nose_radius), wall_angle_(wall_angle), wall_angles_(std::move(wall_angles)) {}

SurfaceReading FormBlock::at(const SectionPoint& point) const {
    return read_block(point, nose_radius_, wall_angle_).surface;
}

ChangingReading FormBlock::at_station(const SectionPoint& point, double station) const {
    if (wall_angles_.is_empty()) {
        return {at(point)};
    }
    const outline::ProfileReading wall = wall_angles_.rounded_at(station);
    return along_line(
        read_block(point, nose_radius_, wall.value), {wall.value, wall.slope, wall.bend}
    );
}

} // namespace flangewright::tooling
