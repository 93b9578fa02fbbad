#include "solver/tooling/surface/rigid_surface.hpp"

namespace flangewright::tooling {

ChangingReading along_line(const ChangingReading& over, const AlongLine& quantity) {
    return {
        over.surface,
        over.slope * quantity.slope,
        over.bend * quantity.slope * quantity.slope + over.slope * quantity.bend,
        over.turn * quantity.slope};
}

SurfaceReading round_reading(const SectionPoint& point, const SectionPoint& centre, double radius) {
    const Eigen::Vector2d arm = point - centre;
    const double length = arm.norm();
    SurfaceReading reading;
    reading.distance = length - radius;
    if (length > 0) {
        reading.normal = arm / length;
        reading.curvature =
            (Eigen::Matrix2d::Identity() - reading.normal * reading.normal.transpose()) / length;
    }
    return reading;
}

SurfaceReading
flat_reading(const SectionPoint& point, const SectionPoint& foot, const Eigen::Vector2d& normal) {
    SurfaceReading reading;
    reading.distance = (point - foot).dot(normal);
    reading.normal = normal;
    return reading;
}

} // namespace flangewright::tooling
