// The trough: a die with a hollow round floor between two rounded shoulders.
#pragma once

#include "solver/tooling/surface/moved_surface.hpp"

namespace flangewright::tooling {

/// Level top at height 0, shoulders that round off into the opening, and below them half a hollow
/// cylinder. Both sides of distance 0 are alike.
class Trough final : public RigidSurface {
public:
    /// Units: mm; `floor_radius` is that of the hollow and half the opening. Source: plane
    /// geometry.
    Trough(double floor_radius, double shoulder_radius);
    [[nodiscard]] SurfaceReading at(const SectionPoint& point) const override;

private:
    double floor_radius_;
    double shoulder_radius_;
    MovedSurface right_;
    MovedSurface left_;
};

} // namespace flangewright::tooling
