#include "mesh/outline/curve_through.hpp"

#include "mesh/base/check.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright::outline {

namespace {

using Eigen::Vector2d;

constexpr double tolerance = 0.01; // mm, of arcs from the spline

double cross(const Vector2d& a, const Vector2d& b) {
    return a.x() * b.y() - a.y() * b.x();
}

double turn_between(const Vector2d& a, const Vector2d& b) {
    return std::atan2(cross(a, b), a.dot(b));
}

/// A place on the spline and the way it goes there.
struct Place {
    Vector2d point;
    Vector2d tangent; // unit
};

/// One span of the spline, by the values and slopes at its ends (parameter 0 to `length`).
struct Span {
    Vector2d begin;
    Vector2d end;
    Vector2d slope_begin;
    Vector2d slope_end;
    double length = 0;

    [[nodiscard]] Place at(double share) const {
        const double s = share;
        const Vector2d chord = (end - begin) / length;
        const Vector2d point = begin
            + s * length
                * (slope_begin + s * (3 * chord - 2 * slope_begin - slope_end)
                   + s * s * (slope_begin + slope_end - 2 * chord));
        const Vector2d slope = slope_begin + 2 * s * (3 * chord - 2 * slope_begin - slope_end)
            + 3 * s * s * (slope_begin + slope_end - 2 * chord);
        return {point, slope.normalized()};
    }
};

/// Turn of the chords' circle through three points between the first two of them, halved: the angle
/// from the tangent to the chord.
double half_turn(const Vector2d& first, const Vector2d& second, const Vector2d& third) {
    return turn_between(first - third, second - third);
}

/// Lengths between neighbours along the curve: chords, made longer as on the circles through each
/// two points and those beside them.
std::vector<double> lengths_between(std::span<const Vector2d> points) {
    std::vector<double> lengths;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        double angle = 0;
        int n_circles = 0;
        if (i > 0) {
            angle += half_turn(points[i + 1], points[i], points[i - 1]);
            ++n_circles;
        }
        if (i + 2 < points.size()) {
            angle -= half_turn(points[i], points[i + 1], points[i + 2]);
            ++n_circles;
        }
        angle = std::abs(angle) / n_circles;
        const double chord = (points[i + 1] - points[i]).norm();
        lengths.push_back(angle > 1e-6 ? chord * angle / std::sin(angle) : chord);
    }
    return lengths;
}

/// Directions of the curve at the points, angles from x. Seen from its chord, a span that leaves at
/// an angle a and arrives at b has the curvatures -(4 a + 2 b)/l and (2 a + 4 b)/l at its ends;
/// that neighbours agree on them gives a row for each inner point. The ends follow the circles
/// through the outer three points. All of it is exact on a circle, where a = -b.
std::vector<double>
directions_at(std::span<const Vector2d> points, const std::vector<double>& lengths) {
    const std::size_t n = points.size();
    std::vector<double> chord(n - 1); // directions of the chords, without jumps of a full turn
    const Vector2d first = points[1] - points[0];
    chord[0] = std::atan2(first.y(), first.x());
    for (std::size_t i = 1; i + 1 < n; ++i) {
        chord[i] =
            chord[i - 1] + turn_between(points[i] - points[i - 1], points[i + 1] - points[i]);
    }
    std::vector<double> direction(n);
    direction[0] = chord[0] - half_turn(points[0], points[1], points[2]);
    direction[n - 1] = chord[n - 2] - half_turn(points[n - 1], points[n - 2], points[n - 3]);
    std::vector<double> upper(n, 0);
    for (std::size_t i = 1; i + 1 < n; ++i) { // elimination down
        const double before = lengths[i - 1];
        const double after = lengths[i];
        const double pivot = 2 * (before + after) - after * upper[i - 1];
        const double right = 3 * (after * chord[i - 1] + before * chord[i]);
        upper[i] = before / pivot;
        direction[i] = (right - after * direction[i - 1]) / pivot;
    }
    for (std::size_t i = n - 1; i-- > 1;) {
        direction[i] -= upper[i] * direction[i + 1];
    }
    return direction;
}

std::vector<Span> spans_through(std::span<const Vector2d> points) {
    const std::vector<double> lengths = lengths_between(points);
    const std::vector<double> directions = directions_at(points, lengths);
    const auto slope = [&directions](std::size_t i) {
        return Vector2d(std::cos(directions[i]), std::sin(directions[i]));
    };
    std::vector<Span> spans;
    for (std::size_t i = 0; i < lengths.size(); ++i) {
        spans.push_back({points[i], points[i + 1], slope(i), slope(i + 1), lengths[i]});
    }
    return spans;
}

/// The arc that leaves a place along its tangent and comes to a point.
struct Arc {
    Place begin;
    Piece piece;

    Arc(const Place& from, const Vector2d& to) : begin(from) {
        constexpr double straight = 1e-8; // 1/mm; a flatter arc is lost in rounding
        const Vector2d chord = to - from.point;
        const double curvature = 2 * cross(from.tangent, chord) / chord.squaredNorm();
        piece.length = chord.norm();
        if (std::abs(curvature) > straight) {
            piece.curvature = curvature;
            piece.length = 2 * turn_between(from.tangent, chord) / curvature;
        }
    }

    [[nodiscard]] double distance(const Vector2d& point) const {
        const Vector2d from = point - begin.point;
        const double off = cross(begin.tangent, from);
        // Written without the centre, which may be far away.
        const double k = piece.curvature;
        return std::abs((2 * off - k * from.squaredNorm()))
            / (1 + std::sqrt(std::max(0.0, 1 - k * (2 * off - k * from.squaredNorm()))));
    }
};

struct Biarc {
    Arc first;
    Arc second;
    Place joint;
};

/// Two arcs from place to place that leave and arrive along the tangents and meet without a kink,
/// both tangents of equal length.
Biarc biarc_between(const Place& from, const Place& to) {
    const Vector2d chord = to.point - from.point;
    const double along = chord.dot(from.tangent + to.tangent);
    const double apart = 2 * (1 - from.tangent.dot(to.tangent));
    const double reach =
        chord.squaredNorm() / (along + std::sqrt(along * along + apart * chord.squaredNorm()));
    const Vector2d left = from.point + reach * from.tangent;
    const Vector2d right = to.point - reach * to.tangent;
    const Place joint{0.5 * (left + right), (right - left).normalized()};
    return {Arc(from, joint.point), Arc(joint, to.point), joint};
}

bool is_near(const Biarc& biarc, const Span& span, double from, double to) {
    constexpr int n_looks = 8;
    for (int k = 1; k < n_looks; ++k) {
        const Vector2d point = span.at(from + (to - from) * k / n_looks).point;
        const bool is_first = biarc.joint.tangent.dot(point - biarc.joint.point) < 0;
        if ((is_first ? biarc.first : biarc.second).distance(point) > tolerance) {
            return false;
        }
    }
    return true;
}

void add_arcs(std::vector<Piece>& pieces, const Span& span, double from, double to) {
    constexpr double least_share = 1.0 / 64;
    const Biarc biarc = biarc_between(span.at(from), span.at(to));
    if (to - from > least_share && !is_near(biarc, span, from, to)) {
        add_arcs(pieces, span, from, 0.5 * (from + to));
        add_arcs(pieces, span, 0.5 * (from + to), to);
        return;
    }
    pieces.push_back(biarc.first.piece);
    pieces.push_back(biarc.second.piece);
}

} // namespace

std::optional<Kink> find_kink(std::span<const Vector2d> points) {
    constexpr double least_turn = std::numbers::pi / 12;
    constexpr double most_turn = std::numbers::pi / 2;
    constexpr double like_neighbours = 3;
    const auto turn_at = [points](std::size_t i) {
        return i == 0 || i + 1 >= points.size()
            ? 0
            : turn_between(points[i] - points[i - 1], points[i + 1] - points[i]);
    };
    for (std::size_t i = 1; i + 1 < points.size(); ++i) {
        const double turn = turn_at(i);
        const double side = turn < 0 ? -1 : 1;
        const double beside = std::max(side * turn_at(i - 1), side * turn_at(i + 1));
        const bool is_lone = points.size() > 3 && std::abs(turn) > like_neighbours * beside;
        if (std::abs(turn) > most_turn || (std::abs(turn) > least_turn && is_lone)) {
            return Kink{i, turn};
        }
    }
    return std::nullopt;
}

CurveThrough curve_through(std::span<const Vector2d> points) {
    check(points.size() >= 2, "a curve has a beginning and an end");
    CurveThrough curve;
    if (points.size() == 2) {
        curve.pieces.push_back({(points[1] - points[0]).norm(), 0});
        curve.from_point.push_back(0);
        curve.begin_direction = curve.end_direction = (points[1] - points[0]).normalized();
        return curve;
    }
    const std::vector<Span> spans = spans_through(points);
    curve.begin_direction = spans.front().slope_begin;
    curve.end_direction = spans.back().slope_end;
    for (std::size_t i = 0; i < spans.size(); ++i) {
        add_arcs(curve.pieces, spans[i], 0, 1);
        curve.from_point.resize(curve.pieces.size(), i);
    }
    return curve;
}

} // namespace flangewright::outline
