#include "io/blank_template/plan_path.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace flangewright::blank_template {

namespace {

using Eigen::Vector2d;
using outline::BendLine;
using outline::Profile;

constexpr double same_place = 1e-9; // mm

/// Stations between the ends of a stretch where pieces of the line meet.
std::vector<double> joints_in(const BendLine& line, const Stretch& stretch) {
    std::vector<double> joints;
    double joint = 0;
    for (const outline::Piece& piece : line.pieces()) {
        joint += piece.length;
        if (joint > stretch.begin + same_place && joint < stretch.end - same_place) {
            joints.push_back(joint);
        }
    }
    return joints;
}

/// What interrupts the edge, by growing station.
struct Break {
    Stretch stretch;
    Vertices path; ///< from the edge before it to the edge past it
};

Break break_of(const BendLine& line, const Profile& widths, const outline::Notch& notch) {
    const double width = widths.at(notch.station);
    const double half = 0.5 * notch.width;
    const double scale = 1 - line.curvature(notch.station) * width;
    const Stretch mouth{notch.station - half / scale, notch.station + half / scale};
    const outline::LineFrame frame = line.frame(notch.station);
    const Vector2d along = frame.tangent.head<2>();
    const Vector2d centre = plan_point(line, notch.station, width - notch.depth + half);
    constexpr double half_turn = 1; // the bulge of half a circle
    return {
        mouth,
        {{plan_point(line, mouth.begin, widths.at(mouth.begin)), 0},
         {centre - half * along, half_turn},
         {centre + half * along, 0},
         {plan_point(line, mouth.end, widths.at(mouth.end)), 0}}};
}

Break break_of(const BendLine& line, const Profile& widths, const outline::Tab& tab) {
    const Stretch stretch{tab.begin, tab.end};
    Vertices path{{plan_point(line, tab.begin, widths.at(tab.begin)), 0}};
    path = joined(path, beside_line(line, stretch, widths, tab.height));
    path.back().bulge = 0;
    path.push_back({plan_point(line, tab.end, widths.at(tab.end)), 0});
    return {stretch, path};
}

} // namespace

Vector2d plan_point(const BendLine& line, double station, double distance) {
    return line.point({station, distance}).head<2>();
}

Vertices beside_line(const BendLine& line, const Stretch& stretch, double distance) {
    std::vector<double> stations{stretch.begin};
    for (const double joint : joints_in(line, stretch)) {
        stations.push_back(joint);
    }
    stations.push_back(stretch.end);
    Vertices path;
    for (std::size_t i = 0; i < stations.size(); ++i) {
        double bulge = 0;
        if (i + 1 < stations.size()) {
            const double length = stations[i + 1] - stations[i];
            bulge = std::tan(0.25 * line.curvature(stations[i] + 0.5 * length) * length);
        }
        path.push_back({plan_point(line, stations[i], distance), bulge});
    }
    return path;
}

Vertices
beside_line(const BendLine& line, const Stretch& stretch, const Profile& distance, double raised) {
    if (distance.most() == distance.least()) {
        return beside_line(line, stretch, distance.most() + raised);
    }
    constexpr double longest = 1; // mm; on a radius of 50 mm it misses the curve by 0.003 mm
    std::set<double> corners{stretch.begin, stretch.end};
    for (const double joint : joints_in(line, stretch)) {
        corners.insert(joint);
    }
    for (const outline::ProfilePoint& point : distance.points()) {
        if (point.station > stretch.begin && point.station < stretch.end) {
            corners.insert(point.station);
        }
    }
    Vertices path{{plan_point(line, stretch.begin, distance.at(stretch.begin) + raised), 0}};
    double before = stretch.begin;
    for (const double corner : corners) {
        const int n = static_cast<int>(std::ceil((corner - before) / longest));
        for (int k = 1; k <= n; ++k) {
            const double station = before + (corner - before) * k / n;
            path.push_back({plan_point(line, station, distance.at(station) + raised), 0});
        }
        before = corner;
    }
    return path;
}

Vertices free_edge(const BendLine& line, const Profile& widths, const outline::Openings& openings) {
    std::vector<Break> breaks;
    for (const outline::Notch& notch : openings.notches) {
        breaks.push_back(break_of(line, widths, notch));
    }
    for (const outline::Tab& tab : openings.tabs) {
        breaks.push_back(break_of(line, widths, tab));
    }
    std::ranges::sort(breaks, {}, [](const Break& each) { return each.stretch.begin; });
    Vertices edge;
    double at = 0;
    for (const Break& each : breaks) {
        edge = joined(edge, beside_line(line, {at, each.stretch.begin}, widths));
        edge = joined(edge, each.path);
        at = each.stretch.end;
    }
    return joined(edge, beside_line(line, {at, line.length()}, widths));
}

Vertices reversed(const Vertices& path) {
    Vertices back(path.rbegin(), path.rend());
    for (std::size_t i = 0; i + 1 < back.size(); ++i) {
        back[i].bulge = -back[i + 1].bulge;
    }
    if (!back.empty()) {
        back.back().bulge = 0;
    }
    return back;
}

Vertices joined(const Vertices& first, const Vertices& second) {
    Vertices both = first;
    for (const paper::Vertex& vertex : second) {
        if (!both.empty() && (both.back().at - vertex.at).norm() < same_place) {
            both.back().bulge = vertex.bulge;
        } else {
            both.push_back(vertex);
        }
    }
    return both;
}

} // namespace flangewright::blank_template
