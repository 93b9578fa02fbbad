#include "mesh/outline/kinked_curve.hpp"

#include "mesh/outline/curve_through.hpp"

#include <cmath>
#include <optional>
#include <utility>

namespace flangewright::outline {

namespace {

using Eigen::Vector2d;

double turn_between(const Vector2d& a, const Vector2d& b) {
    return std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b));
}

// A part ends at a kink, so that a corner beside it may show as one only now.
void add_kinks(
    std::span<const Vector2d> points, std::size_t first, std::vector<std::size_t>& kinks
) {
    const std::optional<Kink> kink = find_kink(points);
    if (!kink) {
        return;
    }
    add_kinks(points.first(kink->point + 1), first, kinks);
    kinks.push_back(first + kink->point);
    add_kinks(points.subspan(kink->point), first + kink->point, kinks);
}

} // namespace

KinkedCurve curve_between_kinks(std::span<const Vector2d> points) {
    KinkedCurve curve;
    add_kinks(points, 0, curve.kinks);
    std::size_t first = 0;
    Vector2d direction = Vector2d::UnitX(); // at the end of the run before
    for (std::size_t i = 0; i <= curve.kinks.size(); ++i) {
        const std::size_t last = i < curve.kinks.size() ? curve.kinks[i] : points.size() - 1;
        CurveThrough part = curve_through(points.subspan(first, last - first + 1));
        if (i > 0) {
            curve.runs.back().turn_after = turn_between(direction, part.begin_direction);
        }
        for (std::size_t& from : part.from_point) {
            from += first;
        }
        direction = part.end_direction;
        curve.runs.push_back({std::move(part.pieces)});
        curve.from_point.push_back(std::move(part.from_point));
        first = last;
    }
    return curve;
}

} // namespace flangewright::outline
