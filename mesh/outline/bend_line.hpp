// The bend line in plan: the inside tangent line where the sheet leaves the web and starts to bend.
#pragma once

#include <Eigen/Core>

namespace flangewright::outline {

/// Which way the line curves as seen from the flange.
enum class Curve { straight, concave, convex };

/// A point of the flat blank in the line's own coordinates.
struct LinePosition {
    double station = 0; ///< arc length along the bend line from its start, mm
    double distance = 0; ///< square to the line, positive toward the flange, mm
};

/// Directions at a station, unit vectors in the web plane.
struct LineFrame {
    Eigen::Vector3d point; ///< on the bend line, z = 0
    Eigen::Vector3d tangent; ///< along the line, station growing
    Eigen::Vector3d outward; ///< square to the line, toward the flange
};

/// A straight or circular bend line. Its middle lies at the origin with the flange toward +y and
/// the station growing toward +x; tangent x outward = +z.
class BendLine {
public:
    /// Units: length in mm. Source: derived here (docs/theory.md, "Coordinates"). Fails: never.
    static BendLine straight(double length);
    /// Units: radius in mm, sweep in rad. `curve` must not be straight. Concave: the flange lies
    /// on the side of the centre and must stretch. Source: as straight(). Fails: never.
    static BendLine arc(double radius, double sweep, Curve curve);

    [[nodiscard]] double length() const { return length_; }
    /// Signed curvature, 1/mm: positive concave, negative convex, 0 straight.
    [[nodiscard]] double curvature() const { return curvature_; }
    [[nodiscard]] Curve curve() const;
    /// Radius in mm; infinity for a straight line.
    [[nodiscard]] double radius() const;
    /// Sweep in rad; 0 for a straight line.
    [[nodiscard]] double sweep() const;

    /// Frame at a station (also beyond the ends).
    [[nodiscard]] LineFrame frame(double station) const;
    /// Point of the web plane at station and distance.
    [[nodiscard]] Eigen::Vector3d point(const LinePosition& position) const;
    /// Inverse of point() for any point of space; its height is ignored.
    [[nodiscard]] LinePosition locate(const Eigen::Vector3d& point) const;

private:
    double length_ = 0;
    double curvature_ = 0;
};

} // namespace flangewright::outline
