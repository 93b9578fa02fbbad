#include "io/drawing/blank_outline.hpp"

#include "io/drawing/stroke_chain.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace flangewright::drawing {

namespace {

using Eigen::Vector2d;
using outline::ProfilePoint;

constexpr double alike = 0.02; // mm: widths that differ by less are one
constexpr double joined = 0.05; // mm: what ends at the line's end
constexpr double kept = 0.01; // mm between the drawn edge and the table of it
constexpr double step = 0.5; // mm

/// A place on the outline as drawn and as seen from the bend line.
struct Seen {
    Vector2d place;
    outline::LinePosition at;
};

std::vector<Seen> seen_along(const Stroke& stroke, const PlacedLine& line) {
    std::vector<Seen> seen;
    for (const Vector2d& place : points_along(stroke, step)) {
        seen.push_back({place, line.locate(place)});
    }
    return seen;
}

/// Twice the area to the left of the outline; positive when it is gone round anticlockwise.
double area_part(const std::vector<Seen>& seen) {
    double part = 0;
    for (std::size_t i = 1; i < seen.size(); ++i) {
        const Vector2d& from = seen[i - 1].place;
        const Vector2d& to = seen[i].place;
        part += from.x() * to.y() - from.y() * to.x();
    }
    return part;
}

DrawingProblem problem(const std::string& found, const Stroke& stroke, const Vector2d& place) {
    return {
        fmt::format("{} at {} ({})", found, name_of(place), name_of(stroke)),
        "the blank's outline: cut square at both ends of the bend line, its web edge at one "
        "distance all along",
        "draw the outline so, without corners cut off, holes, reliefs or tabs (these stand on "
        "layers of their own or under [blank])"};
}

/// The outline's strokes by what they are an edge of.
class Edges {
public:
    explicit Edges(const PlacedLine& line) : line_(line) {}

    /// Takes strokes of an outline gone round anticlockwise.
    std::optional<DrawingProblem> take(const Stroke& stroke, const std::vector<Seen>& seen) {
        if (lies_at(seen, 0) || lies_at(seen, line_.line().length())) {
            return std::nullopt;
        }
        for (const Seen& each : seen) {
            if (is_beyond_ends(each)) {
                return problem("an edge past the bend line's end", stroke, each.place);
            }
        }
        const auto is_of_web = [](const Seen& each) { return each.at.distance < 0; };
        if (std::ranges::all_of(seen, is_of_web)) {
            return take_web(stroke, seen);
        }
        const auto crossing = std::ranges::find_if(seen, is_of_web);
        if (crossing != seen.end()) {
            return problem("an edge across the bend line", stroke, crossing->place);
        }
        return take_flange(stroke, seen);
    }

    [[nodiscard]] Result<BlankOutline, DrawingProblem> outline(const Stroke& first) const {
        std::vector<ProfilePoint> edge = flange_;
        std::ranges::sort(edge, {}, &ProfilePoint::station);
        const double length = line_.line().length();
        if (widest_web_ == 0 || edge.empty() || edge.front().station > joined
            || edge.back().station < length - joined) {
            return tl::unexpected(
                problem("an outline that does not go round the bend line", first, first.begin)
            );
        }
        edge.front().station = 0;
        edge.back().station = length;
        const auto [least, most] = std::ranges::minmax_element(edge, {}, &ProfilePoint::value);
        const double web = 0.5 * (narrowest_web_ + widest_web_);
        if (most->value - least->value <= alike) {
            return BlankOutline{web, 0.5 * (most->value + least->value)};
        }
        const std::vector<ProfilePoint> points = fewest_of(edge);
        constexpr std::size_t most_points = 100;
        constexpr double least_apart = 0.5;
        for (std::size_t i = 1; i < points.size(); ++i) {
            if (points.size() > most_points
                || points[i].station - points[i - 1].station < least_apart) {
                return tl::unexpected(problem(
                    fmt::format(
                        "a flange edge that no table of 100 widths describes, past station {:.4g} "
                        "mm,",
                        points[i - 1].station
                    ),
                    first,
                    first.begin
                ));
            }
        }
        outline::Profile widths(points);
        return BlankOutline{web, widths.most(), widths};
    }

private:
    [[nodiscard]] double scale_at(const Seen& seen) const {
        return std::abs(1 - line_.line().curvature(seen.at.station) * seen.at.distance);
    }
    [[nodiscard]] bool lies_at(const std::vector<Seen>& seen, double station) const {
        return std::ranges::all_of(seen, [&](const Seen& each) {
            return std::abs(each.at.station - station) * scale_at(each) <= joined;
        });
    }
    [[nodiscard]] bool is_beyond_ends(const Seen& seen) const {
        const double off = std::max(-seen.at.station, seen.at.station - line_.line().length());
        return !(off * scale_at(seen) <= joined);
    }
    std::optional<DrawingProblem> take_web(const Stroke& stroke, const std::vector<Seen>& seen) {
        for (const Seen& each : seen) {
            const double width = -each.at.distance;
            narrowest_web_ = std::min(narrowest_web_, width);
            widest_web_ = std::max(widest_web_, width);
            if (widest_web_ - narrowest_web_ > alike) {
                const double elsewhere = width < widest_web_ ? widest_web_ : narrowest_web_;
                return problem(
                    fmt::format("a web {:.5g} mm wide, {:.5g} mm elsewhere,", width, elsewhere),
                    stroke,
                    each.place
                );
            }
        }
        return std::nullopt;
    }
    std::optional<DrawingProblem> take_flange(const Stroke& stroke, const std::vector<Seen>& seen) {
        for (std::size_t i = 0; i < seen.size(); ++i) {
            const outline::LinePosition& at = seen[i].at;
            if (i > 0) {
                const outline::LinePosition& before = seen[i - 1].at;
                const double back = before.station - at.station; // the way it is gone round
                if (std::abs(at.distance - before.distance) > back + alike) {
                    return problem(
                        "a step or slope of more than 45 deg in the flange's edge",
                        stroke,
                        seen[i].place
                    );
                }
            }
            flange_.push_back({at.station, at.distance});
        }
        return std::nullopt;
    }

    /// As few of the points as keep all others within `kept` of the straight lines between them.
    static std::vector<ProfilePoint> fewest_of(const std::vector<ProfilePoint>& all) {
        std::vector<bool> is_kept(all.size(), false);
        is_kept.front() = is_kept.back() = true;
        std::vector<std::pair<std::size_t, std::size_t>> open{{0, all.size() - 1}};
        while (!open.empty()) {
            const auto [from, to] = open.back();
            open.pop_back();
            const double slope = (all[to].value - all[from].value)
                / std::max(all[to].station - all[from].station, 1e-9);
            double furthest = kept;
            std::size_t corner = from;
            for (std::size_t i = from + 1; i < to; ++i) {
                const double straight =
                    all[from].value + slope * (all[i].station - all[from].station);
                if (std::abs(all[i].value - straight) > furthest) {
                    furthest = std::abs(all[i].value - straight);
                    corner = i;
                }
            }
            if (corner != from) {
                is_kept[corner] = true;
                open.emplace_back(from, corner);
                open.emplace_back(corner, to);
            }
        }
        std::vector<ProfilePoint> fewest;
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (is_kept[i]) {
                fewest.push_back(all[i]);
            }
        }
        return fewest;
    }

    const PlacedLine& line_;
    double narrowest_web_ = std::numeric_limits<double>::infinity();
    double widest_web_ = 0;
    std::vector<ProfilePoint> flange_;
};

} // namespace

Result<BlankOutline, DrawingProblem>
blank_outline_of(const std::vector<Stroke>& strokes, const PlacedLine& line) {
    const auto chains = chains_of(strokes);
    if (!chains) {
        return tl::unexpected(chains.error());
    }
    if (chains->empty()) {
        return tl::unexpected(DrawingProblem{
            "nothing but specks",
            "a closed outline round the bend line",
            "draw the blank's outline"});
    }
    const Stroke& first = chains->front().strokes.front();
    if (chains->size() > 1 || !chains->front().is_closed) {
        const Stroke& last = chains->front().strokes.back();
        return tl::unexpected(
            chains->size() > 1 ? problem(
                "a second outline",
                chains->back().strokes.front(),
                chains->back().strokes.front().begin
            )
                               : problem("an outline that is open", last, last.end)
        );
    }
    double area = 0;
    for (const Stroke& stroke : chains->front().strokes) {
        area += area_part(seen_along(stroke, line));
    }
    Edges edges(line);
    for (const Stroke& each : chains->front().strokes) {
        const Stroke stroke = area > 0 ? each : reversed(each);
        if (const auto wrong = edges.take(stroke, seen_along(stroke, line))) {
            return tl::unexpected(*wrong);
        }
    }
    return edges.outline(first);
}

} // namespace flangewright::drawing
