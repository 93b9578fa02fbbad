// The form block: flat face, nose radius, wall at an angle.
#pragma once

#include "mesh/outline/profile.hpp"
#include "solver/tooling/surface/rigid_surface.hpp"

namespace flangewright::tooling {

/// Face at height 0 up to the bend tangent, then a round nose, then the wall.
class FormBlock final : public RigidSurface {
public:
    /// Units: mm, rad; `wall_angle` is turned through from the face. Source: plane geometry.
    FormBlock(double nose_radius, double wall_angle);
    /// With a wall whose angle varies over the station: `wall_angles` with its corners rounded.
    /// Where no station is asked for, `wall_angle` holds. Source: derived here (docs/theory.md, "A
    /// wall whose angle varies").
    FormBlock(double nose_radius, double wall_angle, outline::Profile wall_angles);
    [[nodiscard]] SurfaceReading at(const SectionPoint& point) const override;
    [[nodiscard]] ChangingReading
    at_station(const SectionPoint& point, double station) const override;

private:
    double nose_radius_;
    double wall_angle_;
    outline::Profile wall_angles_;
};

} // namespace flangewright::tooling
