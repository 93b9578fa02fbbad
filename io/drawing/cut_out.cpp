#include "io/drawing/cut_out.hpp"

#include "io/drawing/stroke_chain.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <span>

namespace flangewright::drawing {

namespace {

using Eigen::Vector2d;

constexpr double slack = 0.05; // mm
constexpr double aslant = 0.5 * std::numbers::pi / 180; // off half round, square, a whole circle

Vector2d left_of(const Vector2d& direction) {
    return {-direction.y(), direction.x()};
}

double turn_of(const Stroke& stroke) {
    double turn = 0;
    for (const outline::Piece& piece : stroke.pieces) {
        turn += piece.length * piece.curvature;
    }
    return turn;
}

bool is_arc(const Stroke& stroke) {
    return stroke.pieces.size() == 1 && stroke.pieces.front().curvature != 0;
}

bool is_line(const Stroke& stroke) {
    return stroke.pieces.size() == 1 && stroke.pieces.front().curvature == 0;
}

/// Arcs about one centre, one going on from the other.
struct Round {
    Vector2d centre = Vector2d::Zero();
    double radius = 0;
    double turn = 0;
};

/// Empty when they are not all arcs, or not about one centre.
std::optional<Round> round_of(std::span<const Stroke> strokes) {
    Round round;
    for (const Stroke& stroke : strokes) {
        if (!is_arc(stroke)) {
            return std::nullopt;
        }
        const double curvature = stroke.pieces.front().curvature;
        const Vector2d centre = stroke.begin + left_of(stroke.direction_at_begin) / curvature;
        const double radius = 1 / std::abs(curvature);
        if (&stroke == strokes.data()) {
            round = {centre, radius, 0};
        }
        if ((centre - round.centre).norm() > slack || std::abs(radius - round.radius) > slack) {
            return std::nullopt;
        }
        round.turn += turn_of(stroke);
    }
    return strokes.empty() ? std::nullopt : std::optional(round);
}

double kink_between(const Stroke& before, const Stroke& after) {
    const Vector2d& from = before.direction_at_end;
    const Vector2d& to = after.direction_at_begin;
    return std::abs(std::atan2(from.x() * to.y() - from.y() * to.x(), from.dot(to)));
}

/// A closed slot opened where a stroke crosses its mouth: kinks at both its ends, and it turns
/// least. Empty: no stroke does.
std::optional<std::vector<Stroke>> without_mouth(const std::vector<Stroke>& closed) {
    constexpr double corner = 30 * std::numbers::pi / 180;
    const std::size_t n = closed.size();
    std::optional<std::size_t> mouth;
    for (std::size_t i = 0; i < n; ++i) {
        const bool crosses = kink_between(closed[(i + n - 1) % n], closed[i]) > corner
            && kink_between(closed[i], closed[(i + 1) % n]) > corner;
        if (crosses
            && (!mouth || std::abs(turn_of(closed[i])) < std::abs(turn_of(closed[*mouth])))) {
            mouth = i;
        }
    }
    if (!mouth || n < 2) {
        return std::nullopt;
    }
    std::vector<Stroke> open;
    for (std::size_t k = 1; k < n; ++k) {
        open.push_back(closed[(*mouth + k) % n]);
    }
    return open;
}

/// Of strokes in order: sides, if any, and arcs between them.
std::optional<DrawnSlot> slot_of(const std::vector<Stroke>& strokes) {
    const auto first_arc = std::ranges::find_if_not(strokes, is_line);
    const auto past_arcs = std::find_if(first_arc, strokes.end(), is_line);
    if (first_arc - strokes.begin() > 1 || strokes.end() - past_arcs > 1) {
        return std::nullopt; // sides in parts, or a bottom that is no round
    }
    const std::optional<Round> bottom = round_of({first_arc, past_arcs});
    if (!bottom || std::abs(std::abs(bottom->turn) - std::numbers::pi) > aslant) {
        return std::nullopt;
    }
    const Vector2d chord = (std::prev(past_arcs)->end - first_arc->begin).normalized();
    const Vector2d axis = bottom->turn > 0 ? left_of(chord) : Vector2d(-left_of(chord));
    const bool has_square_sides = std::ranges::all_of(strokes, [&axis](const Stroke& stroke) {
        const Vector2d& way = stroke.direction_at_begin;
        return !is_line(stroke)
            || std::abs(axis.x() * way.y() - axis.y() * way.x()) < std::sin(aslant);
    });
    // A side that goes on past the bottom's end, not back over it.
    const bool goes_out =
        first_arc == strokes.begin() || (strokes.front().begin - bottom->centre).dot(axis) > 0;
    const bool comes_back =
        past_arcs == strokes.end() || (strokes.back().end - bottom->centre).dot(axis) > 0;
    if (!has_square_sides || !goes_out || !comes_back) {
        return std::nullopt;
    }
    return DrawnSlot{
        bottom->centre,
        2 * bottom->radius,
        axis,
        {strokes.front().begin, strokes.back().end},
        "the slot of " + name_of(strokes.front())};
}

std::string opened(const StrokeChain& chain) {
    return chain.is_closed ? "" : ", an outline that is open";
}

} // namespace

Result<std::vector<DrawnCircle>, DrawingProblem> circles_of(const std::vector<Stroke>& strokes) {
    const auto chains = chains_of(strokes);
    if (!chains) {
        return tl::unexpected(chains.error());
    }
    std::vector<DrawnCircle> circles;
    for (const StrokeChain& chain : *chains) {
        const Stroke& first = chain.strokes.front();
        const std::optional<Round> round = round_of(chain.strokes);
        if (!chain.is_closed || !round
            || std::abs(std::abs(round->turn) - 2 * std::numbers::pi) > aslant) {
            return tl::unexpected(DrawingProblem{
                name_of(first) + opened(chain) + ", which is no circle",
                "circles, and closed outlines of arcs about one centre",
                "draw each hole as a circle, and put all else on other layers"});
        }
        circles.push_back(
            {round->centre,
             2 * round->radius,
             fmt::format(
                 "the circle{}{} about {}",
                 first.handle.empty() ? "" : " ",
                 first.handle,
                 name_of(round->centre)
             )}
        );
    }
    return circles;
}

Result<std::vector<DrawnSlot>, DrawingProblem> slots_of(const std::vector<Stroke>& strokes) {
    const auto chains = chains_of(strokes);
    if (!chains) {
        return tl::unexpected(chains.error());
    }
    std::vector<DrawnSlot> slots;
    for (const StrokeChain& chain : *chains) {
        const std::optional<std::vector<Stroke>> sides =
            chain.is_closed ? without_mouth(chain.strokes) : std::optional(chain.strokes);
        const std::optional<DrawnSlot> slot = sides ? slot_of(*sides) : std::nullopt;
        if (!slot) {
            return tl::unexpected(DrawingProblem{
                "an outline with " + name_of(chain.strokes.front())
                    + ", which is no slot with a half-round bottom",
                "two straight sides, a half circle tangent to both, and nothing or one line across "
                "the mouth",
                "draw each relief as a slot, and put all else on other layers"});
        }
        slots.push_back(*slot);
    }
    return slots;
}

} // namespace flangewright::drawing
