#include "solver/tooling/surface/moved_surface.hpp"

#include <Eigen/LU>

namespace flangewright::tooling {

SurfaceReading MovedSurface::turned(SurfaceReading reading) const {
    reading.normal = (axes_ * reading.normal).eval();
    reading.curvature = (axes_ * reading.curvature * axes_.transpose()).eval();
    return reading;
}

Placement MovedSurface::moved(const Placement& own) const {
    const double turn = axes_.determinant() < 0 ? -own.turn : own.turn;
    return {turn, axes_ * own.shift + shift_};
}

SurfaceReading MovedSurface::at(const SectionPoint& point) const {
    return turned(shape_->at(axes_.transpose() * (point - shift_)));
}

Placement MovedSurface::placement() const {
    return moved(shape_->placement());
}

ChangingReading MovedSurface::at_station(const SectionPoint& point, double station) const {
    ChangingReading reading = shape_->at_station(axes_.transpose() * (point - shift_), station);
    reading.surface = turned(reading.surface);
    reading.turn = (axes_ * reading.turn).eval();
    return reading;
}

Placement MovedSurface::placement_at(double station) const {
    return moved(shape_->placement_at(station));
}

} // namespace flangewright::tooling
