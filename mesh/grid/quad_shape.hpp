// Quadrilaterals in the plane: how good their shape is, and how to better it.
#pragma once

#include <Eigen/Core>

#include <array>
#include <vector>

namespace flangewright::grid {

/// Least of the corner areas over the mean of the squared sides: 1 for a square, not above 0 when
/// it is not convex. `quad` counter-clockwise. Units: none. Source: derived here. Fails: never.
[[nodiscard]] double
shape_of_quad(const Eigen::Matrix3Xd& positions, const std::array<int, 4>& quad);

/// Seen from +z. Units, source: none needed. Fails: never.
void turn_counter_clockwise(
    const Eigen::Matrix3Xd& positions, std::vector<std::array<int, 4>>& quads
);

/// Source: shape_of_quad(). Fails: never.
[[nodiscard]] bool
all_convex(const Eigen::Matrix3Xd& positions, const std::vector<std::array<int, 4>>& quads);

/// Moves each free node to the mean of its neighbours where that betters the worst element there.
/// Units: mm. Source: Laplacian smoothing with a guard, from memory. Fails: never.
void smooth_quads(
    Eigen::Matrix3Xd& positions,
    const std::vector<std::array<int, 4>>& quads,
    const std::vector<bool>& is_free
);

} // namespace flangewright::grid
