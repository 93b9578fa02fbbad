#include "io/drawing/stroke_chain.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace flangewright::drawing {

namespace {

using Eigen::Vector2d;

constexpr double joined = 0.05; // mm

bool is_leftover(const Stroke& stroke) {
    double length = 0;
    for (const outline::Piece& piece : stroke.pieces) {
        length += piece.length;
    }
    return length <= joined;
}

bool meet(const Vector2d& one, const Vector2d& other) {
    return (one - other).norm() <= joined;
}

DrawingProblem branch_at(const Vector2d& place, const Stroke& stroke) {
    return {
        fmt::format(
            "more than two ends that meet at {}, one of {}", name_of(place), name_of(stroke)
        ),
        "outlines without branches, each drawn once",
        "delete what is drawn twice, or put other lines on another layer"};
}

/// Takes strokes that go on from the chain's end out of the rest, until none does or it closes.
std::optional<DrawingProblem> extend(StrokeChain& chain, std::vector<Stroke>& rest) {
    while (true) {
        const Vector2d end = chain.strokes.back().end;
        const bool has_length = chain.strokes.size() > 1 || !is_leftover(chain.strokes.front());
        if (has_length && meet(end, chain.strokes.front().begin)) {
            chain.is_closed = true;
            return std::nullopt;
        }
        const auto goes_on = [&end](const Stroke& stroke) {
            return meet(stroke.begin, end) || meet(stroke.end, end);
        };
        const auto next = std::ranges::find_if(rest, goes_on);
        if (next == rest.end()) {
            return std::nullopt;
        }
        if (const auto other = std::find_if(next + 1, rest.end(), goes_on); other != rest.end()) {
            return branch_at(end, *other);
        }
        chain.strokes.push_back(meet(next->begin, end) ? *next : reversed(*next));
        rest.erase(next);
    }
}

void turn_round(StrokeChain& chain) {
    std::ranges::reverse(chain.strokes);
    std::ranges::transform(chain.strokes, chain.strokes.begin(), reversed);
}

} // namespace

Result<std::vector<StrokeChain>, DrawingProblem> chains_of(const std::vector<Stroke>& strokes) {
    constexpr std::size_t most_strokes = 1000;
    std::vector<Stroke> rest = strokes;
    std::erase_if(rest, is_leftover);
    if (rest.size() > most_strokes) {
        return tl::unexpected(DrawingProblem{
            fmt::format("{} lines and arcs", rest.size()),
            "up to 1000 of them",
            "keep only what concerns this flange on its layer"});
    }
    std::vector<StrokeChain> chains;
    while (!rest.empty()) {
        StrokeChain chain{{rest.front()}};
        rest.erase(rest.begin());
        for (int way = 0; way < 2 && !chain.is_closed; ++way) {
            if (const std::optional<DrawingProblem> branch = extend(chain, rest)) {
                return tl::unexpected(*branch);
            }
            if (!chain.is_closed) {
                turn_round(chain); // after both ways it lies as it was drawn
            }
        }
        chains.push_back(std::move(chain));
    }
    return chains;
}

} // namespace flangewright::drawing
