#include "solver/tooling/surface/moved_surface.hpp"

#include <Eigen/LU>

namespace flangewright::tooling {

SurfaceReading MovedSurface::at(const SectionPoint& point) const {
    SurfaceReading reading = shape_->at(axes_.transpose() * (point - shift_));
    reading.normal = (axes_ * reading.normal).eval();
    reading.curvature = (axes_ * reading.curvature * axes_.transpose()).eval();
    return reading;
}

Placement MovedSurface::placement() const {
    const Placement own = shape_->placement();
    const double turn = axes_.determinant() < 0 ? -own.turn : own.turn;
    return {turn, axes_ * own.shift + shift_};
}

} // namespace flangewright::tooling
