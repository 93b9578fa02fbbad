#include "mesh/grid/opening_windows.hpp"

#include "mesh/grid/grading.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright::grid {

namespace {

constexpr double room_round_hole = 1; // radii
constexpr double room_in_lines = 0.75; // distances of lines
constexpr double one_line = 0.45; // distances of lines; what lies nearer becomes one
constexpr double rounding = 1e-9;

/// Rows and stations of a blank as they would be without openings.
struct BareLines {
    LineSpacing stations;
    LineSpacing distances;
};

/// Elements grow by this much per mm off an opening.
constexpr double growth_off_rim = 0.35;

/// What elements measure at the border of a window, `room` off a rim of a radius.
double width_at_border(const BlankGrid& blank, double radius, double room) {
    const double on_rim = 2 * std::numbers::pi * radius / blank.n_round_hole;
    return std::max(2 * on_rim, on_rim + growth_off_rim * room);
}

/// How far something of a half width at a distance from the line reaches along it.
double reach_along(const outline::BendLine& line, double station, double distance, double half) {
    const double scale = 1 - line.curvature(station) * distance;
    return half / std::max(scale, 0.1);
}

Window window_of(const BlankGrid& blank, const BareLines& bare, const outline::Hole& hole) {
    const double radius = 0.5 * hole.diameter;
    const double room = room_round_hole * radius;
    const double edge = hole.distance + (hole.distance > 0 ? radius : 0);
    const double room_along =
        std::max(room, room_in_lines * bare.stations.spacing_at(hole.station));
    const double room_across =
        std::max(room, room_in_lines * bare.distances.spacing_at(hole.distance));
    const double along = reach_along(blank.line, hole.station, edge, radius + room_along);
    const double across = radius + room_across;
    return {
        {hole.station - along, hole.station + along},
        {hole.distance - across, hole.distance + across},
        width_at_border(blank, radius, std::min(room_along, room_across)),
        {},
        {}};
}

Window window_of(const BlankGrid& blank, const BareLines& bare, const outline::Notch& notch) {
    const double half = 0.5 * notch.width;
    const double room =
        std::max(room_round_hole * half, room_in_lines * bare.stations.spacing_at(notch.station));
    const double along = reach_along(blank.line, notch.station, blank.flange_width, half + room);
    const double bottom = blank.flange_width - notch.depth;
    const double below =
        std::max(room_round_hole * half, room_in_lines * bare.distances.spacing_at(bottom));
    return {
        {notch.station - along, notch.station + along},
        {bottom - below, blank.flange_width},
        width_at_border(blank, half, std::min(room, below)),
        {},
        {}};
}

bool overlap(const Interval& one, const Interval& other) {
    return one.begin < other.end && other.begin < one.end;
}

void widen(Interval& interval, const Interval& by) {
    interval.begin = std::min(interval.begin, by.begin);
    interval.end = std::max(interval.end, by.end);
}

/// Makes one of each two that overlap.
std::vector<Window> joined(std::vector<Window> windows) {
    for (std::size_t i = 0; i < windows.size(); ++i) {
        for (std::size_t k = i + 1; k < windows.size();) {
            Window& one = windows[i];
            const Window& other = windows[k];
            if (!overlap(one.stations, other.stations)
                || !overlap(one.distances, other.distances)) {
                ++k;
                continue;
            }
            widen(one.stations, other.stations);
            widen(one.distances, other.distances);
            one.widest = std::min(one.widest, other.widest);
            one.holes.insert(one.holes.end(), other.holes.begin(), other.holes.end());
            one.notches.insert(one.notches.end(), other.notches.begin(), other.notches.end());
            windows.erase(windows.begin() + static_cast<std::ptrdiff_t>(k));
            k = i + 1; // it is larger now
        }
    }
    return windows;
}

/// The part of a blank that a distance lies in: web, flange before a second bend, what stays of it
/// when it is cut, or what is cut off.
Interval part_at(const BlankGrid& blank, double distance) {
    const double kept = kept_width(blank);
    if (distance < 0) {
        return {-blank.web_width, 0};
    }
    if (distance > kept) {
        return {kept, blank.flange_width};
    }
    return {blank.bend_width, blank.second_bend_begin > 0 ? blank.second_bend_begin : kept};
}

/// Keeps a window within its part of the blank, and along the line between ends and tabs' sides.
void clip(Window& window, const BlankGrid& blank) {
    const Interval part = part_at(blank, 0.5 * (window.distances.begin + window.distances.end));
    window.distances = {
        std::max(window.distances.begin, part.begin), std::min(window.distances.end, part.end)};
    window.stations = {
        std::max(window.stations.begin, 0.0), std::min(window.stations.end, blank.line.length())};
    if (window.notches.empty()) {
        return;
    }
    const double middle = 0.5 * (window.stations.begin + window.stations.end);
    for (const outline::Tab& tab : blank.openings.tabs) {
        for (const double side : {tab.begin, tab.end}) {
            if (side > middle) {
                window.stations.end = std::min(window.stations.end, side);
            } else {
                window.stations.begin = std::max(window.stations.begin, side);
            }
        }
    }
}

std::vector<Window> windows_of(const BlankGrid& blank, const BareLines& bare) {
    std::vector<Window> windows;
    const outline::Openings& openings = blank.openings;
    for (std::size_t i = 0; i < openings.holes.size(); ++i) {
        windows.push_back(window_of(blank, bare, openings.holes[i]));
        windows.back().holes = {i};
        clip(windows.back(), blank);
    }
    for (std::size_t i = 0; i < openings.notches.size(); ++i) {
        windows.push_back(window_of(blank, bare, openings.notches[i]));
        windows.back().notches = {i};
        clip(windows.back(), blank);
    }
    return joined(std::move(windows));
}

/// Adds a place to the marks, or moves it to the mark it nearly lies on.
void mark(std::vector<double>& marks, double& place, const LineSpacing& spacing) {
    const double near = one_line * spacing.spacing_at(place) + rounding;
    const auto off = [&place](double other) { return std::abs(other - place); };
    const double closest = *std::ranges::min_element(marks, {}, off);
    if (off(closest) <= near) {
        place = closest;
    } else {
        marks.push_back(place);
    }
}

/// Stations that must stay: ends, sides of tabs, and those that lie on a joint of the line or a
/// corner of the edge.
std::vector<double> fixed_stations(const BlankGrid& blank, const LineSpacing& stations) {
    std::vector<double> wanted;
    double joint = 0;
    for (const outline::Piece& piece : blank.line.pieces()) {
        wanted.push_back(joint += piece.length);
    }
    for (const outline::ProfilePoint& corner : blank.flange_widths.points()) {
        wanted.push_back(corner.station);
    }
    std::vector<double> marks{stations.values().front(), stations.values().back()};
    for (const outline::Tab& tab : blank.openings.tabs) {
        marks.push_back(tab.begin);
        marks.push_back(tab.end);
    }
    for (const double place : wanted) {
        const auto is_it = [place](double other) { return std::abs(other - place) < rounding; };
        if (std::ranges::any_of(stations.values(), is_it) && std::ranges::none_of(marks, is_it)) {
            marks.push_back(place);
        }
    }
    return marks;
}

/// Rows that must stay: edges, bends, the net line, edges of tabs.
std::vector<double> fixed_distances(const BlankGrid& blank) {
    std::vector<double> marks{-blank.web_width, 0, blank.bend_width, blank.flange_width};
    if (kept_width(blank) < blank.flange_width) {
        marks.push_back(kept_width(blank));
    }
    if (blank.second_bend_begin > 0) {
        marks.push_back(blank.second_bend_begin);
        marks.push_back(blank.second_bend_begin + blank.second_bend_width);
    }
    for (const outline::Tab& tab : blank.openings.tabs) {
        marks.push_back(blank.flange_width + tab.height);
    }
    std::ranges::sort(marks);
    const auto is_same = [](double one, double next) { return next - one < rounding; };
    marks.erase(std::unique(marks.begin(), marks.end(), is_same), marks.end());
    return marks;
}

/// Rows go on past the edge as they lie before it.
std::vector<double> with_tabs(const BlankGrid& blank, std::vector<double> distances) {
    const double highest = blank.openings.highest_tab();
    if (highest > 0) {
        const double beside = distances.back() - distances[distances.size() - 2];
        const int n = std::max(1, static_cast<int>(std::ceil(highest / beside)));
        for (int k = 1; k <= n; ++k) {
            distances.push_back(blank.flange_width + highest * k / n);
        }
    }
    return distances;
}

} // namespace

WindowedLines lines_with_windows(
    const BlankGrid& blank,
    const std::vector<double>& stations,
    const std::vector<double>& distances
) {
    const BareLines bare{LineSpacing(stations), LineSpacing(with_tabs(blank, distances))};
    WindowedLines lines;
    lines.windows = windows_of(blank, bare);
    std::vector<double> along = fixed_stations(blank, bare.stations);
    std::vector<double> across = fixed_distances(blank);
    std::vector<PairedStretch> paired_along;
    std::vector<PairedStretch> paired_across;
    for (Window& window : lines.windows) {
        mark(along, window.stations.begin, bare.stations);
        mark(along, window.stations.end, bare.stations);
        mark(across, window.distances.begin, bare.distances);
        mark(across, window.distances.end, bare.distances);
        paired_along.push_back({window.stations, window.widest});
        paired_across.push_back({window.distances, window.widest});
    }
    std::ranges::sort(along);
    std::ranges::sort(across);
    lines.stations = lines_through(bare.stations, along, paired_along);
    lines.distances = lines_through(bare.distances, across, paired_across);
    return lines;
}

} // namespace flangewright::grid
