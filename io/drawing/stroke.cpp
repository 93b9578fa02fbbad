#include "io/drawing/stroke.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flangewright::drawing {

namespace {

using Eigen::Vector2d;

Vector2d along(double angle) {
    return {std::cos(angle), std::sin(angle)};
}

} // namespace

Stroke line_stroke(const Vector2d& begin, const Vector2d& end) {
    const Vector2d direction = (end - begin).normalized();
    return {"line", begin, end, direction, direction, {{(end - begin).norm(), 0}}};
}

Stroke arc_stroke(const Vector2d& centre, double radius, double begin, double sweep) {
    constexpr double quarter = 1.5707963267948966;
    const double end = begin + sweep;
    return {
        "arc",
        centre + radius * along(begin),
        centre + radius * along(end),
        along(begin + quarter),
        along(end + quarter),
        {{radius * sweep, 1 / radius}}};
}

Stroke bulge_stroke(const Vector2d& begin, const Vector2d& end, double bulge) {
    const Vector2d chord = end - begin;
    const double turn = 4 * std::atan(bulge);
    const double curvature = 4 * bulge / (chord.norm() * (1 + bulge * bulge));
    if (std::abs(turn) < 1e-9) {
        return line_stroke(begin, end);
    }
    const double direction = std::atan2(chord.y(), chord.x());
    return {
        "arc",
        begin,
        end,
        along(direction - 0.5 * turn),
        along(direction + 0.5 * turn),
        {{turn / curvature, curvature}}};
}

Stroke reversed(const Stroke& stroke) {
    Stroke back{
        stroke.name,
        stroke.end,
        stroke.begin,
        -stroke.direction_at_end,
        -stroke.direction_at_begin,
        stroke.pieces,
        stroke.handle};
    std::ranges::reverse(back.pieces);
    for (outline::Piece& piece : back.pieces) {
        piece.curvature = -piece.curvature;
    }
    return back;
}

Stroke mirrored(const Stroke& stroke) {
    Stroke other = stroke;
    for (Vector2d* vector :
         {&other.begin, &other.end, &other.direction_at_begin, &other.direction_at_end}) {
        vector->x() = -vector->x();
    }
    for (outline::Piece& piece : other.pieces) {
        piece.curvature = -piece.curvature;
    }
    return other;
}

Stroke scaled(const Stroke& stroke, double factor) {
    Stroke other = stroke;
    other.begin *= factor;
    other.end *= factor;
    for (outline::Piece& piece : other.pieces) {
        piece.length *= factor;
        piece.curvature /= factor;
    }
    return other;
}

std::vector<Vector2d> points_along(const Stroke& stroke, double step) {
    constexpr double most_steps = 500;
    constexpr double fewest_steps = 4;
    std::vector<Vector2d> points{stroke.begin};
    Vector2d at = stroke.begin;
    double direction = std::atan2(stroke.direction_at_begin.y(), stroke.direction_at_begin.x());
    for (const outline::Piece& piece : stroke.pieces) {
        const double n = std::clamp(std::ceil(piece.length / step), fewest_steps, most_steps);
        const auto chord = [&](double length) -> Vector2d {
            const double half_turn = 0.5 * piece.curvature * length;
            const double straight =
                piece.curvature == 0 ? length : 2 * std::sin(half_turn) / piece.curvature;
            return straight * along(direction + half_turn);
        };
        for (double i = 1; i <= n; ++i) {
            points.emplace_back(at + chord(piece.length * i / n));
        }
        at = points.back();
        direction += piece.curvature * piece.length;
    }
    points.back() = stroke.end;
    return points;
}

std::string name_of(const Vector2d& place) {
    return fmt::format("({:.6g}, {:.6g}) mm", place.x(), place.y());
}

std::string name_of(const Stroke& stroke) {
    const std::string name =
        stroke.handle.empty() ? stroke.name : stroke.name + ' ' + stroke.handle;
    if ((stroke.end - stroke.begin).norm() <= 1e-9) {
        return fmt::format("the {} through {}", name, name_of(stroke.begin));
    }
    return fmt::format("the {} from {} to {}", name, name_of(stroke.begin), name_of(stroke.end));
}

} // namespace flangewright::drawing
