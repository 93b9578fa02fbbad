// A rigid tool as seen in a section square to the bend line: signed distance, normal, curvature.
#pragma once

#include <Eigen/Core>

namespace flangewright::tooling {

/// Section coordinates: distance past the bend tangent toward the flange, height over the block's
/// face.
using SectionPoint = Eigen::Vector2d;

/// The nearest place of a surface. mm.
struct SurfaceReading {
    double distance = 0; ///< positive outside the tool
    Eigen::Vector2d normal = Eigen::Vector2d::Zero(); ///< gradient of the distance, off the tool
    Eigen::Matrix2d curvature =
        Eigen::Matrix2d::Zero(); ///< second derivative of the distance, 1/mm
};

/// Where a tool stands in its section: turned about the origin from the height's axis toward the
/// flange, then shifted. rad, mm.
struct Placement {
    double turn = 0;
    Eigen::Vector2d shift = Eigen::Vector2d::Zero();
};

/// One rigid tool shape; swept along the bend line by the contact.
class RigidSurface {
public:
    virtual ~RigidSurface() = default;
    /// Units: mm. Shape: 2. Source: plane geometry, derived here (docs/theory.md, "Tools").
    /// Fails: never; on the skeleton of a tool the reading of one side is given.
    [[nodiscard]] virtual SurfaceReading at(const SectionPoint& point) const = 0;
    /// Where the tool stands now; tools that never move keep the default. Units: rad, mm.
    /// Source: plane geometry. Fails: never.
    [[nodiscard]] virtual Placement placement() const { return {}; }
};

/// Distance to a circular arc's convex side. Units: mm. Shape: 2. Source: plane geometry. Fails:
/// never (at the centre itself the normal is zero).
[[nodiscard]] SurfaceReading
round_reading(const SectionPoint& point, const SectionPoint& centre, double radius);

/// Distance to a plane with unit normal `normal` through `foot`. Units: mm. Shape: 2. Source: plane
/// geometry. Fails: never.
[[nodiscard]] SurfaceReading
flat_reading(const SectionPoint& point, const SectionPoint& foot, const Eigen::Vector2d& normal);

} // namespace flangewright::tooling
