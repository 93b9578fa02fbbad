// The form block: flat face, nose radius, wall at an angle.
#pragma once

#include "solver/tooling/surface/rigid_surface.hpp"

namespace flangewright::tooling {

/// Face at height 0 up to the bend tangent, then a round nose, then the wall.
class FormBlock final : public RigidSurface {
public:
    /// Units: mm, rad; `wall_angle` is turned through from the face. Source: plane geometry.
    FormBlock(double nose_radius, double wall_angle);
    [[nodiscard]] SurfaceReading at(const SectionPoint& point) const override;

private:
    double nose_radius_;
    double wall_angle_;
};

} // namespace flangewright::tooling
