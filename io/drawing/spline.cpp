#include "io/drawing/spline.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::drawing {

namespace {

/// Point at a parameter within the span of knots that begins at `span`.
Eigen::Vector2d point_at(const Spline& spline, std::size_t span, double parameter) {
    const auto degree = static_cast<std::size_t>(spline.degree);
    std::vector<Eigen::Vector3d> row; // weighted
    for (std::size_t i = span - degree; i <= span; ++i) {
        const Eigen::Vector3d& control = spline.controls[i];
        row.emplace_back(control.x() * control.z(), control.y() * control.z(), control.z());
    }
    for (std::size_t level = 1; level <= degree; ++level) {
        for (std::size_t j = degree; j >= level; --j) {
            const double from = spline.knots[span - degree + j];
            const double to = spline.knots[span + 1 + j - level];
            const double share = (parameter - from) / (to - from);
            row[j] = (1 - share) * row[j - 1] + share * row[j];
        }
    }
    return row[degree].head<2>() / row[degree].z();
}

} // namespace

bool is_sound(const Spline& spline) {
    constexpr int highest_degree = 10;
    const bool has_numbers = spline.degree >= 1 && spline.degree <= highest_degree
        && spline.controls.size() > static_cast<std::size_t>(spline.degree)
        && spline.knots.size()
            == spline.controls.size() + static_cast<std::size_t>(spline.degree) + 1;
    return has_numbers && std::ranges::is_sorted(spline.knots)
        && std::ranges::all_of(spline.knots, [](double knot) { return std::isfinite(knot); })
        && std::ranges::all_of(spline.controls, [](const Eigen::Vector3d& control) {
               return control.allFinite() && control.z() > 0;
           });
}

std::vector<Eigen::Vector2d> points_on(const Spline& spline) {
    constexpr int n_in_span = 8;
    const auto degree = static_cast<std::size_t>(spline.degree);
    std::vector<Eigen::Vector2d> points;
    for (std::size_t span = degree; span < spline.controls.size(); ++span) {
        const double from = spline.knots[span];
        const double to = spline.knots[span + 1];
        if (!(to > from)) {
            continue;
        }
        for (int k = points.empty() ? 0 : 1; k <= n_in_span; ++k) {
            points.push_back(point_at(spline, span, from + (to - from) * k / n_in_span));
        }
    }
    return points;
}

} // namespace flangewright::drawing
