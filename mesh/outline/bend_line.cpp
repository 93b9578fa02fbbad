#include "mesh/outline/bend_line.hpp"

#include "mesh/base/check.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace flangewright::outline {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// Chord from a piece's middle to a place on it, in the frame of the middle.
Eigen::Vector2d chord(double curvature, double from_middle) {
    if (curvature == 0) {
        return {from_middle, 0};
    }
    const double turn = curvature * from_middle;
    return {std::sin(turn) / curvature, (1 - std::cos(turn)) / curvature};
}

} // namespace

Eigen::Vector2d BendLine::Placed::point_at(double from_middle) const {
    const Eigen::Vector2d local = chord(piece.curvature, from_middle);
    return {
        point.x() + local.x() * tangent.x() - local.y() * tangent.y(),
        point.y() + local.x() * tangent.y() + local.y() * tangent.x()};
}

Eigen::Vector2d BendLine::Placed::in_frame(const Eigen::Vector2d& of) const {
    const Eigen::Vector2d from = of - point;
    return {
        from.x() * tangent.x() + from.y() * tangent.y(),
        from.y() * tangent.x() - from.x() * tangent.y()};
}

LinePosition BendLine::Placed::foot(const Eigen::Vector2d& local) const {
    if (piece.curvature == 0) {
        return {middle + local.x(), local.y()};
    }
    // The centre of the arc lies at 1/curvature along y, on the flange's side when concave.
    const double side = piece.curvature > 0 ? 1.0 : -1.0;
    const double across = 1.0 / piece.curvature - local.y();
    const double turn = std::atan2(side * local.x(), side * across);
    const double from_centre = std::hypot(local.x(), across);
    return {
        middle + turn / piece.curvature, side * (1.0 / std::abs(piece.curvature) - from_centre)};
}

/// Puts a piece so that the place `from_middle` on it lies at `at` and runs along `direction`.
void BendLine::place(
    std::size_t index, double direction, double from_middle, const Eigen::Vector2d& at
) {
    Placed& placed = placed_[index];
    placed.direction = direction - placed.piece.curvature * from_middle;
    placed.tangent = {std::cos(placed.direction), std::sin(placed.direction)};
    placed.point = at - (placed.point_at(from_middle) - placed.point);
}

BendLine BendLine::straight(double length) {
    return chain({{length, 0}});
}

BendLine BendLine::arc(double radius, double sweep, Curve curve) {
    check(curve == Curve::concave || curve == Curve::convex, "an arc is concave or convex");
    return chain({{radius * sweep, curve == Curve::concave ? 1.0 / radius : -1.0 / radius}});
}

BendLine BendLine::chain(const std::vector<Piece>& pieces) {
    check(!pieces.empty(), "a line has a piece");
    BendLine line;
    for (const Piece& piece : pieces) {
        Placed placed;
        placed.piece = piece;
        placed.middle = line.length_ + 0.5 * piece.length;
        placed.half_sweep_cosine = std::cos(0.5 * piece.length * std::abs(piece.curvature));
        line.placed_.push_back(placed);
        line.length_ += piece.length;
    }
    // From the middle of the line outward, so that rounding grows to both ends alike.
    const double half = 0.5 * line.length_;
    const auto first = static_cast<std::size_t>(&line.at(half) - line.placed_.data());
    line.place(first, 0, half - line.placed_[first].middle, Eigen::Vector2d::Zero());
    for (std::size_t i = first + 1; i < pieces.size(); ++i) {
        const Placed& before = line.placed_[i - 1];
        const double to_end = 0.5 * before.piece.length;
        const double direction = before.direction + before.piece.curvature * to_end;
        line.place(i, direction, -0.5 * pieces[i].length, before.point_at(to_end));
    }
    for (std::size_t i = first; i-- > 0;) {
        const Placed& after = line.placed_[i + 1];
        const double to_begin = -0.5 * after.piece.length;
        const double direction = after.direction + after.piece.curvature * to_begin;
        line.place(i, direction, 0.5 * pieces[i].length, after.point_at(to_begin));
    }
    return line;
}

std::vector<Piece> BendLine::pieces() const {
    std::vector<Piece> list;
    list.reserve(placed_.size());
    for (const Placed& placed : placed_) {
        list.push_back(placed.piece);
    }
    return list;
}

const BendLine::Placed& BendLine::at(double station) const {
    const auto after = std::upper_bound(
        placed_.begin() + 1,
        placed_.end(),
        station,
        [](double value, const Placed& placed) { return value < placed.begin(); }
    );
    return *(after - 1);
}

Curve BendLine::curve() const {
    constexpr double rounding = 1e-12;
    const double curvature = tightest_curvature();
    const bool is_one = std::ranges::all_of(placed_, [&](const Placed& placed) {
        return std::abs(placed.piece.curvature - curvature) <= rounding * std::abs(curvature);
    });
    if (!is_one) {
        return Curve::mixed;
    }
    if (curvature == 0) {
        return Curve::straight;
    }
    return curvature > 0 ? Curve::concave : Curve::convex;
}

double BendLine::curvature(double station) const {
    return at(station).piece.curvature;
}

double BendLine::tightest_curvature() const {
    double most = 0;
    double least = 0;
    for (const Placed& placed : placed_) {
        most = std::max(most, placed.piece.curvature);
        least = std::min(least, placed.piece.curvature);
    }
    return most > 0 ? most : least;
}

double BendLine::concave_radius() const {
    double radius = infinite;
    for (const Placed& placed : placed_) {
        if (placed.piece.curvature > 0) {
            radius = std::min(radius, 1.0 / placed.piece.curvature);
        }
    }
    return radius;
}

double BendLine::convex_radius() const {
    double radius = infinite;
    for (const Placed& placed : placed_) {
        if (placed.piece.curvature < 0) {
            radius = std::min(radius, -1.0 / placed.piece.curvature);
        }
    }
    return radius;
}

double BendLine::radius() const {
    return std::min(concave_radius(), convex_radius());
}

double BendLine::sweep() const {
    double sweep = 0;
    for (const Placed& placed : placed_) {
        sweep += placed.piece.length * std::abs(placed.piece.curvature);
    }
    return sweep;
}

double BendLine::largest_turn() const {
    double turned = 0;
    double most = 0;
    double least = 0;
    for (const Placed& placed : placed_) {
        turned += placed.piece.length * placed.piece.curvature;
        most = std::max(most, turned);
        least = std::min(least, turned);
    }
    return most - least;
}

LineFrame BendLine::frame(double station) const {
    const Placed& placed = at(station);
    const double from_middle = station - placed.middle;
    const double direction = placed.direction + placed.piece.curvature * from_middle;
    const Eigen::Vector2d point = placed.point_at(from_middle);
    LineFrame frame;
    frame.tangent = {std::cos(direction), std::sin(direction), 0};
    frame.outward = {-std::sin(direction), std::cos(direction), 0};
    frame.point = {point.x(), point.y(), 0};
    return frame;
}

Eigen::Vector3d BendLine::point(const LinePosition& position) const {
    const LineFrame at = frame(position.station);
    return at.point + position.distance * at.outward;
}

/// How far a point lies from a piece: square to it when its foot is on the piece, from the line's
/// end when it lies beyond it, infinite when another piece is meant.
double BendLine::separation(std::size_t index, const Eigen::Vector2d& point) const {
    constexpr double rounding = 1e-12; // else a point square to a joint might belong to no piece
    const Placed& placed = placed_[index];
    const double half = 0.5 * placed.piece.length;
    const Eigen::Vector2d local = placed.in_frame(point);
    bool is_on = std::abs(local.x()) <= half * (1 + rounding);
    double distance = std::abs(local.y());
    if (placed.piece.curvature != 0) {
        const double side = placed.piece.curvature > 0 ? 1.0 : -1.0;
        const double from_centre = side * (1.0 / placed.piece.curvature - local.y());
        const double radial = std::hypot(local.x(), from_centre);
        is_on = from_centre >= (placed.half_sweep_cosine - rounding) * radial;
        distance = std::abs(1.0 / std::abs(placed.piece.curvature) - radial);
    }
    if (is_on) {
        return distance;
    }
    const bool is_beyond_start = index == 0 && local.x() < 0;
    const bool is_beyond_end = index + 1 == placed_.size() && local.x() > 0;
    if (!is_beyond_start && !is_beyond_end) {
        return infinite;
    }
    return (point - placed.point_at(is_beyond_start ? -half : half)).norm();
}

const BendLine::Placed& BendLine::nearest(const Eigen::Vector2d& point) const {
    // The piece whose middle is nearest is a good first guess; a piece lies within half its length
    // round its middle, so that most others need no closer look.
    const auto from_middle = [&](const Placed& placed) {
        return (point - placed.point).squaredNorm();
    };
    const auto guess = std::ranges::min_element(placed_, {}, from_middle) - placed_.begin();
    const Placed* nearest = nullptr;
    double least = infinite;
    const auto look_at = [&](std::size_t i) {
        const double distance = separation(i, point);
        if (distance < least) {
            least = distance;
            nearest = &placed_[i];
        }
    };
    look_at(static_cast<std::size_t>(guess));
    for (std::size_t i = 0; i < placed_.size(); ++i) {
        const double reach = least + 0.5 * placed_[i].piece.length;
        if (from_middle(placed_[i]) <= reach * reach) {
            look_at(i);
        }
    }
    if (nearest != nullptr) {
        return *nearest;
    }
    // Beyond the centres of its pieces a point may have no foot at all.
    return placed_[static_cast<std::size_t>(guess)];
}

LinePosition BendLine::locate(const Eigen::Vector3d& point) const {
    const Eigen::Vector2d in_plan = point.head<2>();
    const Placed& placed = placed_.size() == 1 ? placed_.front() : nearest(in_plan);
    return placed.foot(placed.in_frame(in_plan));
}

} // namespace flangewright::outline
