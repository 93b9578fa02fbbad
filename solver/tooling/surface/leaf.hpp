// The leaf: a rigid flat plate that turns about the nose's centre line and presses the flange over.
#pragma once

#include "solver/tooling/surface/rigid_surface.hpp"

namespace flangewright::tooling {

/// A plane at a fixed distance from the nose's centre; the sheet lies between both.
class Leaf final : public DrivenSurface {
public:
    /// Units: mm. `reach` is the plane's distance from the nose's centre: nose radius plus gap.
    /// Source: plane geometry.
    Leaf(double nose_radius, double reach) : nose_radius_(nose_radius), reach_(reach) {}
    [[nodiscard]] SurfaceReading at(const SectionPoint& point) const override;
    [[nodiscard]] Placement placement() const override { return placement_at_stroke(angle_); }
    /// The stroke is the angle turned through, rad.
    [[nodiscard]] ChangingReading
    at_stroke(const SectionPoint& point, double stroke) const override;
    [[nodiscard]] Placement placement_at_stroke(double stroke) const override;

    /// Turned through from lying flat on the sheet, rad.
    void set_angle(double angle) { angle_ = angle; }
    [[nodiscard]] double angle() const { return angle_; }

private:
    double nose_radius_;
    double reach_;
    double angle_ = 0;
};

} // namespace flangewright::tooling
