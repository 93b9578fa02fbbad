#include "solver/tooling/surface/moved_surface.hpp"

namespace flangewright::tooling {

SurfaceReading MovedSurface::at(const SectionPoint& point) const {
    const Eigen::Vector2d mirror(sign_, 1);
    SurfaceReading reading = shape_->at(mirror.cwiseProduct(point - shift_));
    reading.normal = mirror.cwiseProduct(reading.normal).eval();
    reading.curvature(0, 1) *= sign_;
    reading.curvature(1, 0) *= sign_;
    return reading;
}

Placement MovedSurface::placement() const {
    const Placement own = shape_->placement();
    return {sign_ * own.turn, Eigen::Vector2d(sign_ * own.shift[0], own.shift[1]) + shift_};
}

} // namespace flangewright::tooling
