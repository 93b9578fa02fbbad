// Closed polygons in the plane: whether they keep clear of each other.
#pragma once

#include <Eigen/Core>

#include <vector>

namespace flangewright::outline {

/// Corners going round, the first not repeated; heights are ignored.
using Polygon = std::vector<Eigen::Vector3d>;

/// Whether some side of the one meets a side of the other. Source: none needed. Fails: never.
[[nodiscard]] bool do_cross(const Polygon& one, const Polygon& other);

/// Source: even-odd rule, from memory. Fails: never; a point on a side is a matter of rounding.
[[nodiscard]] bool contains(const Polygon& polygon, const Eigen::Vector3d& point);

/// Distance of a point from a straight side. Units: mm. Source: none needed. Fails: never.
[[nodiscard]] double
off_side(const Eigen::Vector3d& point, const Eigen::Vector3d& from, const Eigen::Vector3d& to);

/// Whether all others lie inside the first, clear of it and side by side. Source: none needed.
/// Fails: never.
[[nodiscard]] bool are_nested(const std::vector<Polygon>& polygons);

} // namespace flangewright::outline
