// A tool that follows a wall whose angle varies: at each station it has made the same share of the
// stroke it makes there.
#pragma once

#include "mesh/outline/profile.hpp"
#include "solver/tooling/surface/rigid_surface.hpp"

#include <memory>
#include <utility>

namespace flangewright::tooling {

/// The shape at a stroke that hangs on the station.
class FollowingTool final : public RigidSurface {
public:
    /// `strokes`: the whole one over the station, in the shape's own unit, corners rounded. Source:
    /// docs/theory.md, "A wall whose angle varies".
    FollowingTool(std::shared_ptr<const DrivenSurface> shape, outline::Profile strokes)
        : shape_(std::move(shape)), strokes_(std::move(strokes)) {}

    void move_to(double share) { share_ = share; }
    /// Units: the shape's own. Source: none needed. Fails: never.
    [[nodiscard]] AlongLine stroke_at(double station) const;

    /// At the first point of the strokes; what follows the line asks at_station().
    [[nodiscard]] SurfaceReading at(const SectionPoint& point) const override;
    [[nodiscard]] Placement placement() const override;
    [[nodiscard]] ChangingReading
    at_station(const SectionPoint& point, double station) const override;
    [[nodiscard]] Placement placement_at(double station) const override;

private:
    [[nodiscard]] double first_station() const { return strokes_.points().front().station; }

    std::shared_ptr<const DrivenSurface> shape_;
    outline::Profile strokes_;
    double share_ = 0;
};

} // namespace flangewright::tooling
