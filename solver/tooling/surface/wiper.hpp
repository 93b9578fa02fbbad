// The wiper: a rigid tool with a rounded lower corner that goes straight down past the wall.
#pragma once

#include "solver/tooling/surface/rigid_surface.hpp"

namespace flangewright::tooling {

/// Upright face toward the wall, round corner, level underside.
class Wiper final : public DrivenSurface {
public:
    /// Units: mm. `face` is the distance of the upright face past the bend tangent.
    /// Source: plane geometry.
    Wiper(double face, double corner_radius) : face_(face), corner_radius_(corner_radius) {}
    [[nodiscard]] SurfaceReading at(const SectionPoint& point) const override;
    [[nodiscard]] Placement placement() const override { return placement_at_stroke(underside_); }
    /// The stroke is the height of the underside, mm.
    [[nodiscard]] ChangingReading
    at_stroke(const SectionPoint& point, double stroke) const override;
    [[nodiscard]] Placement placement_at_stroke(double stroke) const override {
        return {0, Eigen::Vector2d(0, stroke)};
    }

    /// Height of the underside over the block's face; mm, falls as the tool goes down.
    void set_underside(double height) { underside_ = height; }
    [[nodiscard]] double underside() const { return underside_; }
    [[nodiscard]] double corner_radius() const { return corner_radius_; }

private:
    double face_;
    double corner_radius_;
    double underside_ = 0;
};

} // namespace flangewright::tooling
