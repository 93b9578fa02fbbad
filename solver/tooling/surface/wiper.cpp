#include "solver/tooling/surface/wiper.hpp"

namespace flangewright::tooling {

SurfaceReading Wiper::at(const SectionPoint& point) const {
    const SectionPoint centre(face_ + corner_radius_, underside_ + corner_radius_);
    const bool is_above_corner = point[1] >= centre[1];
    const bool is_past_corner = point[0] >= centre[0];
    if (is_above_corner && !is_past_corner) {
        return flat_reading(point, SectionPoint(face_, centre[1]), Eigen::Vector2d(-1, 0));
    }
    if (is_past_corner) {
        return flat_reading(point, SectionPoint(centre[0], underside_), Eigen::Vector2d(0, -1));
    }
    return round_reading(point, centre, corner_radius_);
}

ChangingReading Wiper::at_stroke(const SectionPoint& point, double stroke) const {
    Wiper there = *this;
    there.underside_ = stroke;
    const SurfaceReading reading = there.at(point);
    // Raising the tool is lowering the point.
    return {reading, -reading.normal[1], reading.curvature(1, 1), -reading.curvature.col(1)};
}

} // namespace flangewright::tooling
