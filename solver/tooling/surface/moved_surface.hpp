// A tool shape set elsewhere: turned or mirrored, then shifted as a whole.
#pragma once

#include "solver/tooling/surface/rigid_surface.hpp"

#include <memory>
#include <utility>

namespace flangewright::tooling {

/// Directions of a shape's own two axes in the section, as columns: unit, square to each other.
using ShapeAxes = Eigen::Matrix2d;

/// Axes of a shape that faces the other way along the distance past the bend tangent.
/// Source: none needed. Fails: never.
[[nodiscard]] inline ShapeAxes mirrored_axes() {
    return Eigen::Vector2d(-1, 1).asDiagonal();
}

/// The shape laid along other axes, from another origin.
class MovedSurface final : public RigidSurface {
public:
    /// Units: mm. Source: plane geometry.
    MovedSurface(std::shared_ptr<const RigidSurface> shape, ShapeAxes axes, Eigen::Vector2d shift)
        : shape_(std::move(shape)), axes_(std::move(axes)), shift_(std::move(shift)) {}
    [[nodiscard]] SurfaceReading at(const SectionPoint& point) const override;
    [[nodiscard]] Placement placement() const override;
    [[nodiscard]] ChangingReading
    at_station(const SectionPoint& point, double station) const override;
    [[nodiscard]] Placement placement_at(double station) const override;

    /// Where the shape's own origin stands now; mm.
    void move_to(const Eigen::Vector2d& shift) { shift_ = shift; }

private:
    [[nodiscard]] SurfaceReading turned(SurfaceReading reading) const;
    [[nodiscard]] Placement moved(const Placement& own) const;

    std::shared_ptr<const RigidSurface> shape_;
    ShapeAxes axes_;
    Eigen::Vector2d shift_;
};

} // namespace flangewright::tooling
