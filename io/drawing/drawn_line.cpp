#include "io/drawing/drawn_line.hpp"

#include "io/units/angle.hpp"
#include "mesh/outline/rounded_kinks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <numbers>
#include <utility>

namespace flangewright::drawing {

namespace {

using Eigen::Vector2d;

constexpr double joined = 0.05; // mm
constexpr double smooth = 0.2 * std::numbers::pi / 180;
constexpr std::size_t nothing = std::numeric_limits<std::size_t>::max();

std::string place(const Vector2d& point) {
    return name_of(point);
}

/// Ends are numbered: 2 i begins stroke i, 2 i + 1 ends it.
class Ends {
public:
    explicit Ends(const std::vector<Stroke>& strokes) {
        for (const Stroke& stroke : strokes) {
            points_.push_back(stroke.begin);
            points_.push_back(stroke.end);
        }
        partners_.assign(points_.size(), nothing);
    }

    /// Finds each end's partner; a place where three meet is a problem.
    std::optional<DrawingProblem> pair() {
        for (std::size_t i = 0; i < points_.size(); ++i) {
            for (std::size_t j = i + 1; j < points_.size(); ++j) {
                if ((points_[i] - points_[j]).norm() > joined) {
                    continue;
                }
                if (partners_[i] != nothing || partners_[j] != nothing) {
                    return DrawingProblem{
                        "more than two lines that meet at " + place(points_[i]),
                        "one line without branches",
                        "delete what is drawn twice, or put other lines on another layer"};
                }
                partners_[i] = j;
                partners_[j] = i;
            }
        }
        return std::nullopt;
    }
    [[nodiscard]] std::vector<std::size_t> loose() const {
        std::vector<std::size_t> list;
        for (std::size_t i = 0; i < partners_.size(); ++i) {
            if (partners_[i] == nothing) {
                list.push_back(i);
            }
        }
        return list;
    }
    [[nodiscard]] DrawingProblem gap(const std::vector<std::size_t>& loose) const {
        double least = std::numeric_limits<double>::infinity();
        std::size_t one = loose[0];
        std::size_t other = loose[1];
        for (const std::size_t i : loose) {
            for (const std::size_t j : loose) {
                const double distance = (points_[i] - points_[j]).norm();
                if (i / 2 < j / 2 && distance < least) {
                    least = distance;
                    one = i;
                    other = j;
                }
            }
        }
        return {
            fmt::format(
                "a gap of {:.3g} mm between {} and {}",
                least,
                place(points_[one]),
                place(points_[other])
            ),
            "ends that meet within 0.05 mm",
            "join the ends in the drawing, or put what does not belong to the bend line on another "
            "layer"};
    }
    [[nodiscard]] std::size_t partner(std::size_t end) const { return partners_[end]; }
    [[nodiscard]] const Vector2d& point(std::size_t end) const { return points_[end]; }

private:
    std::vector<Vector2d> points_;
    std::vector<std::size_t> partners_;
};

double length_of(const Stroke& stroke) {
    double length = 0;
    for (const outline::Piece& piece : stroke.pieces) {
        length += piece.length;
    }
    return length;
}

/// Left turn from one stroke to the next where they meet; 0 when it is lost in drawing.
double turn_between(const Stroke& before, const Stroke& after) {
    const Vector2d& from = before.direction_at_end;
    const Vector2d& to = after.direction_at_begin;
    const double turn = std::atan2(from.x() * to.y() - from.y() * to.x(), from.dot(to));
    return std::abs(turn) <= smooth ? 0 : turn;
}

DrawingProblem kink_problem(const Vector2d& point, double turn) {
    return {
        fmt::format("a kink of {:.3g} deg at {}", units::degrees(std::abs(turn)), place(point)),
        "lines and arcs that meet without a kink (0.2 deg)",
        "round the corner in the drawing, or make the arc tangent, or write round_kinks = the "
        "corner's radius in the case file"};
}

Result<std::vector<Stroke>, DrawingProblem>
in_order(const std::vector<Stroke>& strokes, const Ends& ends, std::size_t start) {
    std::vector<Stroke> ordered;
    for (std::size_t end = start; end != nothing;) {
        const Stroke& stroke = strokes[end / 2];
        const bool is_forward = end % 2 == 0;
        ordered.push_back(is_forward ? stroke : reversed(stroke));
        end = ends.partner(is_forward ? end + 1 : end - 1);
    }
    if (ordered.size() < strokes.size()) {
        return tl::unexpected(DrawingProblem{
            "a closed line beside the bend line",
            "one line with two ends",
            "put what does not belong to the bend line on another layer"});
    }
    return ordered;
}

std::optional<DrawingProblem> first_kink(const std::vector<Stroke>& strokes) {
    for (std::size_t i = 0; i + 1 < strokes.size(); ++i) {
        if (const double turn = turn_between(strokes[i], strokes[i + 1]); turn != 0) {
            return kink_problem(strokes[i].end, turn);
        }
    }
    return std::nullopt;
}

/// Strokes between kinks, each piece with its name.
struct KinkedLine {
    std::vector<outline::SmoothRun> runs;
    std::vector<std::vector<std::string>> names; ///< per run, per piece
    std::vector<RoundedKink> kinks; ///< behind each run but the last
};

KinkedLine kinked_line_of(const std::vector<Stroke>& strokes, double kink_radius) {
    KinkedLine line;
    for (std::size_t i = 0; i < strokes.size(); ++i) {
        const double turn = i == 0 ? 0 : turn_between(strokes[i - 1], strokes[i]);
        if (turn != 0) {
            line.runs.back().turn_after = turn;
            line.kinks.push_back({place(strokes[i].begin), turn, kink_radius});
        }
        if (i == 0 || turn != 0) {
            line.runs.emplace_back();
            line.names.emplace_back();
        }
        const Stroke& stroke = strokes[i];
        const std::string name = fmt::format(
            "the {} from {} to {}", stroke.name, place(stroke.begin), place(stroke.end)
        );
        for (const outline::Piece& piece : stroke.pieces) {
            line.runs.back().pieces.push_back(piece);
            line.names.back().push_back(name);
        }
    }
    return line;
}

Result<DrawnLine, DrawingProblem>
line_of(std::vector<Stroke> strokes, Side flange, std::optional<double> kink_radius) {
    if (flange == Side::right) {
        std::ranges::reverse(strokes);
        std::ranges::transform(strokes, strokes.begin(), reversed);
    }
    const KinkedLine line = kinked_line_of(strokes, kink_radius.value_or(0));
    const auto pieces = outline::round_kinks(line.runs, kink_radius.value_or(0));
    if (!pieces) {
        const auto in_mm = [](double length) { return fmt::format("{:.4g} mm", length); };
        return tl::unexpected(no_room_for(line.kinks[pieces.error().kink], pieces.error(), in_mm));
    }
    DrawnLine result{{}, {}, line.kinks, strokes.front().begin, strokes.front().direction_at_begin};
    for (const outline::RoundedPiece& each : *pieces) {
        result.pieces.push_back(each.piece);
        result.names.push_back(
            each.source ? line.names[each.run][*each.source]
                        : "the rounded kink at " + line.kinks[each.run].place
        );
    }
    return result;
}

} // namespace

Result<DrawnLine, DrawingProblem>
join(const std::vector<Stroke>& drawn, Side flange, std::optional<double> kink_radius) {
    constexpr std::size_t most_strokes = 500;
    std::vector<Stroke> strokes;
    std::ranges::copy_if(drawn, std::back_inserter(strokes), [](const Stroke& stroke) {
        return length_of(stroke) > joined; // a shorter one is a leftover of trimming
    });
    if (strokes.empty() || strokes.size() > most_strokes) {
        return tl::unexpected(DrawingProblem{
            fmt::format("{} lines and arcs", strokes.size()),
            "1 to 500 of them",
            strokes.empty() ? "draw the bend line" : "keep only the bend line on its layer"});
    }
    Ends ends(strokes);
    if (const std::optional<DrawingProblem> branch = ends.pair()) {
        return tl::unexpected(*branch);
    }
    const std::vector<std::size_t> loose = ends.loose();
    if (loose.empty()) {
        return tl::unexpected(DrawingProblem{
            "a closed line",
            "a line with two ends",
            "cut it open where the flange ends, or draw the part of it that is a slice"});
    }
    if (loose.size() > 2) {
        return tl::unexpected(ends.gap(loose));
    }
    const auto is_before = [&ends](std::size_t a, std::size_t b) {
        const Vector2d& one = ends.point(a);
        const Vector2d& other = ends.point(b);
        return std::abs(one.x() - other.x()) > joined ? one.x() < other.x() : one.y() < other.y();
    };
    const std::size_t start = is_before(loose[0], loose[1]) ? loose[0] : loose[1];
    auto ordered = in_order(strokes, ends, start);
    if (!ordered) {
        return tl::unexpected(ordered.error());
    }
    const std::optional<DrawingProblem> kink = kink_radius ? std::nullopt : first_kink(*ordered);
    if (kink) {
        return tl::unexpected(*kink);
    }
    return line_of(std::move(*ordered), flange, kink_radius);
}

} // namespace flangewright::drawing
