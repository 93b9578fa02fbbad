// The plane a set of points rests on: below all of them, and highest beneath a given place.
#pragma once

#include <Eigen/Core>

#include <span>
#include <vector>

namespace flangewright::findings {

/// The directions in which the resting plane may tilt: none, one or two horizontal unit vectors,
/// square to each other.
using TiltDirections = std::vector<Eigen::Vector3d>;

/// The plane found.
struct RestingPlane {
    Eigen::Vector3d point = Eigen::Vector3d::Zero(); ///< of the plane, beneath the place given
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ(); ///< unit, toward the points
    std::vector<int> supports; ///< columns of `points` that touch: as many as tilts, plus one
};

/// The part is set down: the plane below all points, highest at `weight` (measured along its own
/// normal), by the simplex method on its touching points. A place on the line between two touching
/// points leaves the part free to rock; then one of the two positions it can rock to is given.
/// Units: mm. Source: derived here (docs/theory-findings.md, "Web lift"). Fails: never for points
/// that surround `weight` in plan; else the plane is still below all points.
[[nodiscard]] RestingPlane find_resting_plane(
    const Eigen::Matrix3Xd& points, const Eigen::Vector3d& weight, const TiltDirections& tilts
);

} // namespace flangewright::findings
