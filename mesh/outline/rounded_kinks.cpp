#include "mesh/outline/rounded_kinks.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace flangewright::outline {

namespace {

using Eigen::Vector2d;

constexpr double rounding = 1e-9; // mm

double cross(const Vector2d& a, const Vector2d& b) {
    return a.x() * b.y() - a.y() * b.x();
}

double turn_between(const Vector2d& a, const Vector2d& b) {
    return std::atan2(cross(a, b), a.dot(b));
}

Vector2d turned(const Vector2d& direction, double angle) {
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    return {c * direction.x() - s * direction.y(), s * direction.x() + c * direction.y()};
}

/// A piece in the plane, gone along away from the kink.
struct Placed {
    Vector2d begin;
    Vector2d direction; // unit, at `begin`
    Piece piece;
    double station = 0; // of `begin`, from the kink

    [[nodiscard]] bool is_straight() const { return std::abs(piece.curvature) < 1e-12; }
    [[nodiscard]] Vector2d left() const { return {-direction.y(), direction.x()}; }
    [[nodiscard]] Vector2d centre() const { return begin + left() / piece.curvature; }
    [[nodiscard]] Vector2d direction_at(double along) const {
        return turned(direction, piece.curvature * along);
    }
    [[nodiscard]] Vector2d point_at(double along) const {
        const double half = 0.5 * piece.curvature * along;
        const double chord = std::abs(half) < 1e-9 ? along : along * std::sin(half) / half;
        return begin + chord * turned(direction, half);
    }
    /// How far along the piece the point lies that is `offset` to the right of `point`; empty when
    /// it lies beyond the piece's ends.
    [[nodiscard]] std::optional<double> foot(const Vector2d& point, double offset) const {
        double along = direction.dot(point - begin);
        if (!is_straight()) {
            const double signed_radius = 1 / piece.curvature - offset;
            const double angle = turn_between(left(), (centre() - point) / signed_radius);
            along = angle / piece.curvature;
            along += along < -rounding ? 2 * std::numbers::pi / std::abs(piece.curvature) : 0;
        }
        if (along < -rounding || along > piece.length + rounding) {
            return std::nullopt;
        }
        return std::clamp(along, 0.0, piece.length);
    }
};

std::vector<Piece> reversed(std::vector<Piece> pieces) {
    std::ranges::reverse(pieces);
    return pieces;
}

/// A run away from the kink at the origin.
std::vector<Placed> placed(const std::vector<Piece>& pieces, const Vector2d& direction) {
    constexpr std::size_t most_pieces = 500; // an arc that takes more of them is none
    std::vector<Placed> list;
    Placed next{Vector2d::Zero(), direction, {}, 0};
    for (const Piece& piece : pieces) {
        if (list.size() == most_pieces) {
            break;
        }
        next.piece = piece;
        list.push_back(next);
        next = {
            next.point_at(piece.length),
            next.direction_at(piece.length),
            {},
            next.station + piece.length};
    }
    return list;
}

/// Where a straight line through `point` meets a circle.
std::vector<Vector2d> line_on_circle(
    const Vector2d& point, const Vector2d& direction, const Vector2d& centre, double radius
) {
    const Vector2d nearest = point + direction * direction.dot(centre - point);
    const double squared = radius * radius - (centre - nearest).squaredNorm();
    if (squared < 0) {
        return {};
    }
    return {nearest - std::sqrt(squared) * direction, nearest + std::sqrt(squared) * direction};
}

/// Places that lie `one_offset` to the left of one piece and `other_offset` to the left of the
/// other, both taken beyond their ends.
std::vector<Vector2d>
meetings(const Placed& one, double one_offset, const Placed& other, double other_offset) {
    if (one.is_straight() && !other.is_straight()) {
        return meetings(other, other_offset, one, one_offset);
    }
    const Vector2d on_other = other.begin + other_offset * other.left();
    if (one.is_straight()) {
        const Vector2d on_one = one.begin + one_offset * one.left();
        const double sine = cross(one.direction, other.direction);
        if (std::abs(sine) < 1e-12) {
            return {};
        }
        return {on_one + one.direction * cross(on_other - on_one, other.direction) / sine};
    }
    const double radius = std::abs(1 / one.piece.curvature - one_offset);
    if (other.is_straight()) {
        return line_on_circle(on_other, other.direction, one.centre(), radius);
    }
    // The two circles meet on the line that is square to that between their centres.
    const double other_radius = std::abs(1 / other.piece.curvature - other_offset);
    const Vector2d apart = other.centre() - one.centre();
    const double distance = apart.norm();
    if (distance < rounding) {
        return {};
    }
    const Vector2d along = apart / distance;
    const double to_line =
        0.5 * (distance + (radius * radius - other_radius * other_radius) / distance);
    return line_on_circle(
        one.centre() + to_line * along, {-along.y(), along.x()}, one.centre(), radius
    );
}

/// What the rounding of a kink takes off both sides and puts in between.
struct Rounding {
    double off_before = std::numeric_limits<double>::infinity();
    double off_after = std::numeric_limits<double>::infinity();
    Piece arc;

    [[nodiscard]] double off() const { return off_before + off_after; }
};

/// Takes the arc about `centre` if it is one and takes less than `best`.
void look_at(
    Rounding& best,
    const Placed& before,
    const Placed& after,
    const Vector2d& centre,
    double signed_radius
) {
    // The side before is gone along backwards: left and right change, and so do directions.
    const std::optional<double> back = before.foot(centre, -signed_radius);
    const std::optional<double> forth = after.foot(centre, signed_radius);
    if (!back || !forth) {
        return;
    }
    const double turn = turn_between(-before.direction_at(*back), after.direction_at(*forth));
    const Rounding found{
        before.station + *back, after.station + *forth, {signed_radius * turn, 1 / signed_radius}};
    if (found.arc.length > rounding && found.off() < best.off()) {
        best = found;
    }
}

std::optional<Rounding> rounding_between(
    const std::vector<Piece>& before, const std::vector<Piece>& after, double turn, double radius
) {
    std::vector<Piece> backwards = reversed(before);
    for (Piece& piece : backwards) {
        piece.curvature = -piece.curvature;
    }
    const std::vector<Placed> back = placed(backwards, -Vector2d::UnitX());
    const std::vector<Placed> forth = placed(after, turned(Vector2d::UnitX(), turn));
    const double signed_radius = turn < 0 ? -radius : radius;
    Rounding best;
    for (const Placed& one : back) {
        for (const Placed& other : forth) {
            if (one.station + other.station >= best.off()) {
                break; // what lies further from the kink takes more
            }
            for (const Vector2d& centre : meetings(one, -signed_radius, other, signed_radius)) {
                look_at(best, one, other, centre, signed_radius);
            }
        }
    }
    return std::isfinite(best.off()) ? std::optional(best) : std::nullopt;
}

double length_of(const std::vector<Piece>& pieces) {
    double length = 0;
    for (const Piece& piece : pieces) {
        length += piece.length;
    }
    return length;
}

/// Shortens the pieces that `off` reaches from one end. Those left without length stay, so that
/// each keeps its place.
void take_off(std::vector<Piece>& pieces, double off) {
    for (Piece& piece : pieces) {
        const double part = std::min(off, piece.length);
        piece.length -= part;
        off -= part;
    }
}

} // namespace

Result<std::vector<RoundedPiece>, NoRoom>
round_kinks(const std::vector<SmoothRun>& runs, double radius) {
    constexpr double least_length = 1e-6; // mm; what is shorter is left out
    std::vector<RoundedPiece> line;
    std::vector<Piece> pieces = runs.empty() ? std::vector<Piece>{} : runs.front().pieces;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        std::vector<Piece> next;
        std::optional<Rounding> kink;
        if (i + 1 < runs.size()) {
            next = runs[i + 1].pieces;
            kink = rounding_between(pieces, next, runs[i].turn_after, radius);
            if (!kink) {
                return tl::unexpected(NoRoom{i, length_of(pieces), length_of(next)});
            }
            pieces = reversed(std::move(pieces));
            take_off(pieces, kink->off_before);
            pieces = reversed(std::move(pieces));
            take_off(next, kink->off_after);
        }
        for (std::size_t k = 0; k < pieces.size(); ++k) {
            if (pieces[k].length > least_length) {
                line.push_back({pieces[k], i, k});
            }
        }
        if (kink) {
            line.push_back({kink->arc, i, std::nullopt});
        }
        pieces = std::move(next);
    }
    return line;
}

double tangent_length(double turn, double radius) {
    return radius * std::tan(0.5 * std::abs(turn));
}

} // namespace flangewright::outline
