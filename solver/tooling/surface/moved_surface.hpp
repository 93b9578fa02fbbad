// A tool shape set elsewhere: mirrored to face the other way or not, then shifted as a whole.
#pragma once

#include "solver/tooling/surface/rigid_surface.hpp"

#include <memory>
#include <utility>

namespace flangewright::tooling {

/// Which way a shape faces along the distance past the bend tangent.
enum class Facing { as_made, mirrored };

/// The shape at its mirror image about the height's axis, if asked, then shifted.
class MovedSurface final : public RigidSurface {
public:
    /// Units: mm. Source: plane geometry.
    MovedSurface(std::shared_ptr<const RigidSurface> shape, Facing facing, Eigen::Vector2d shift)
        : shape_(std::move(shape)), sign_(facing == Facing::mirrored ? -1 : 1),
          shift_(std::move(shift)) {}
    [[nodiscard]] SurfaceReading at(const SectionPoint& point) const override;
    [[nodiscard]] Placement placement() const override;

    /// Where the shape's own origin stands now; mm.
    void move_to(const Eigen::Vector2d& shift) { shift_ = shift; }

private:
    std::shared_ptr<const RigidSurface> shape_;
    double sign_; ///< of the shape's distance in the section
    Eigen::Vector2d shift_;
};

} // namespace flangewright::tooling
