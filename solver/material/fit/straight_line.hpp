// The straight line nearest to points.
#pragma once

#include <span>

namespace flangewright::material {

/// y = intercept + slope x, and how well the slope is known.
struct StraightLine {
    double slope = 0;
    double intercept = 0;
    double slope_error = 0; ///< standard error; infinite for fewer than three points
};

/// Least squares in y. Units: those of x and y. Source: Gauss, textbook least squares, from memory.
/// Fails: slope 0 with infinite error when the points don't spread in x.
[[nodiscard]] StraightLine line_through(std::span<const double> x, std::span<const double> y);

/// Slope of the line through the origin. Units, source: as above. Fails: 0 when all x are 0.
[[nodiscard]] double slope_through_origin(std::span<const double> x, std::span<const double> y);

} // namespace flangewright::material
