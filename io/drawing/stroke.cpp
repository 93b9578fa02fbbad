#include "io/drawing/stroke.hpp"

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
        stroke.pieces};
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

} // namespace flangewright::drawing
