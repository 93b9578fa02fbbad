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

/// A reading and how it changes along a line: the tool stands elsewhere at each value of it, the
/// point stays. Of a station in mm, or of the tool's stroke in its own unit.
struct ChangingReading {
    SurfaceReading surface;
    double slope = 0; ///< of the distance
    double bend = 0; ///< its second derivative
    Eigen::Vector2d turn = Eigen::Vector2d::Zero(); ///< slope of the normal
};

/// A quantity along the line at one station.
struct AlongLine {
    double value = 0;
    double slope = 0; ///< 1/mm
    double bend = 0; ///< second derivative, 1/mm^2
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
    /// The same two at a station of the bend line, for tools that do not stand alike all along it.
    [[nodiscard]] virtual ChangingReading
    at_station(const SectionPoint& point, double /*station*/) const {
        return {at(point)};
    }
    [[nodiscard]] virtual Placement placement_at(double /*station*/) const { return placement(); }
};

/// A tool with one way to move, its stroke.
class DrivenSurface : public RigidSurface {
public:
    /// With the tool at a stroke, and how it changes with the stroke. Units: mm; the stroke in the
    /// tool's own. Source: plane geometry. Fails: never.
    [[nodiscard]] virtual ChangingReading
    at_stroke(const SectionPoint& point, double stroke) const = 0;
    [[nodiscard]] virtual Placement placement_at_stroke(double stroke) const = 0;
};

/// A reading over a stroke or an angle, as one over the station: that quantity hangs on the
/// station. Units: mm; the quantity in its own. Source: chain rule. Fails: never.
[[nodiscard]] ChangingReading along_line(const ChangingReading& over, const AlongLine& quantity);

/// Distance to a circular arc's convex side. Units: mm. Shape: 2. Source: plane geometry. Fails:
/// never (at the centre itself the normal is zero).
[[nodiscard]] SurfaceReading
round_reading(const SectionPoint& point, const SectionPoint& centre, double radius);

/// Distance to a plane with unit normal `normal` through `foot`. Units: mm. Shape: 2. Source: plane
/// geometry. Fails: never.
[[nodiscard]] SurfaceReading
flat_reading(const SectionPoint& point, const SectionPoint& foot, const Eigen::Vector2d& normal);

} // namespace flangewright::tooling
