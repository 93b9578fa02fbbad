// A drawing's spline: piecewise rational polynomials over knots.
#pragma once

#include <Eigen/Core>

#include <vector>

namespace flangewright::drawing {

/// As a drawing writes it.
struct Spline {
    int degree = 3;
    std::vector<double> knots; ///< growing, one per control point and degree + 1 more
    std::vector<Eigen::Vector3d> controls; ///< x, y, weight
};

/// Whether knots, weights and numbers of them fit each other. Source: none needed. Fails: never.
[[nodiscard]] bool is_sound(const Spline& spline);

/// Points along the spline, eight to a span between different knots, from its begin to its end.
/// Units: as given. Source: de Boor's scheme, from memory. Fails: never for a sound spline.
[[nodiscard]] std::vector<Eigen::Vector2d> points_on(const Spline& spline);

} // namespace flangewright::drawing
