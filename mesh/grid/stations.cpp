#include "mesh/grid/stations.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::grid {

namespace {

constexpr double rounding = 1e-9;
constexpr double most_apart = 1.5; // lengths of neighbours
constexpr double growth = 0.3; // mm of length per mm along the line: neighbours grow by 1.35
constexpr double least_share = 0.5; // of an element that a joint may cut off

/// A stretch of the line on which elements are no longer than this.
struct Stretch {
    double begin = 0;
    double end = 0;
    double longest = 0;

    [[nodiscard]] double allowed(double station) const {
        return longest + growth * std::max({0.0, begin - station, station - end});
    }
};

double allowed_at(const std::vector<Stretch>& stretches, double station) {
    double allowed = stretches.front().allowed(station);
    for (const Stretch& stretch : stretches) {
        allowed = std::min(allowed, stretch.allowed(station));
    }
    return allowed;
}

/// How many elements of the allowed length fit between the start and each of some places.
struct Count {
    std::vector<double> places;
    std::vector<double> elements;
    bool is_even = true; ///< one allowed length all along

    [[nodiscard]] double total() const { return elements.back(); }
    [[nodiscard]] double place_of(double count) const {
        const auto above = std::lower_bound(elements.begin() + 1, elements.end() - 1, count);
        const auto i = static_cast<std::size_t>(above - elements.begin());
        const double share = (count - elements[i - 1]) / (elements[i] - elements[i - 1]);
        return places[i - 1] + share * (places[i] - places[i - 1]);
    }
};

Count count_between(const std::vector<Stretch>& stretches, double begin, double end) {
    constexpr double parts_of_shortest = 8;
    double shortest = stretches.front().longest;
    for (const Stretch& stretch : stretches) {
        shortest = std::min(shortest, stretch.longest);
    }
    const int n = std::max(1, static_cast<int>(parts_of_shortest * (end - begin) / shortest));
    Count count{{begin}, {0}};
    double before = allowed_at(stretches, begin);
    for (int i = 1; i <= n; ++i) {
        const double place = begin + (end - begin) * i / n;
        const double allowed = allowed_at(stretches, place);
        count.is_even = count.is_even && allowed == before;
        count.elements.push_back(
            count.total() + (place - count.places.back()) * 0.5 * (1 / before + 1 / allowed)
        );
        count.places.push_back(place);
        before = allowed;
    }
    return count;
}

std::vector<Stretch> stretches_of(const BlankGrid& blank) {
    std::vector<Stretch> stretches;
    double station = 0;
    for (const outline::Piece& piece : blank.line.pieces()) {
        const double turn_per_longest = blank.longest * std::abs(piece.curvature);
        const double longest = turn_per_longest > blank.largest_turn
            ? blank.largest_turn / std::abs(piece.curvature)
            : blank.longest;
        stretches.push_back({station, station + piece.length, longest});
        station += piece.length;
    }
    return stretches;
}

/// Ends of the line, and what lies between that must be a station: joints of pieces, corners of the
/// free edge.
std::vector<double> joints_of(const BlankGrid& blank, const std::vector<Stretch>& stretches) {
    constexpr double least_change = 0.1; // of the largest turn, over an element
    const std::vector<outline::Piece> pieces = blank.line.pieces();
    const double end = blank.line.length();
    std::vector<double> wanted;
    for (std::size_t i = 1; i < pieces.size(); ++i) {
        const double joint = stretches[i].begin;
        const double change =
            std::abs(pieces[i].curvature - pieces[i - 1].curvature) * allowed_at(stretches, joint);
        if (change > least_change * blank.largest_turn) {
            wanted.push_back(joint);
        }
    }
    for (const outline::ProfilePoint& corner : blank.flange_widths.points()) {
        wanted.push_back(corner.station);
    }
    std::ranges::sort(wanted);
    std::vector<double> joints{0};
    for (const double joint : wanted) {
        if (count_between(stretches, joints.back(), joint).total() >= least_share
            && count_between(stretches, joint, end).total() >= least_share) {
            joints.push_back(joint);
        }
    }
    joints.push_back(end);
    return joints;
}

std::vector<double>
divided(const std::vector<Stretch>& stretches, const std::vector<double>& joints) {
    std::vector<double> stations{joints.front()};
    for (std::size_t joint = 1; joint < joints.size(); ++joint) {
        const double begin = joints[joint - 1];
        const double end = joints[joint];
        const Count count = count_between(stretches, begin, end);
        const int n = std::max(1, static_cast<int>(std::ceil(count.total() - rounding)));
        for (int i = 1; i < n; ++i) {
            stations.push_back(
                count.is_even ? begin + (end - begin) * i / n
                              : count.place_of(count.total() * i / n)
            );
        }
        stations.push_back(end);
    }
    return stations;
}

/// Elements that are too short for a neighbour, as stretches that shorten it.
std::vector<Stretch> too_short(const std::vector<double>& stations) {
    std::vector<Stretch> list;
    for (std::size_t i = 2; i < stations.size(); ++i) {
        const Stretch one{stations[i - 2], stations[i - 1], stations[i - 1] - stations[i - 2]};
        const Stretch next{stations[i - 1], stations[i], stations[i] - stations[i - 1]};
        if (next.longest > most_apart * one.longest) {
            list.push_back(one);
        } else if (one.longest > most_apart * next.longest) {
            list.push_back(next);
        }
    }
    return list;
}

} // namespace

std::vector<double> stations_along(const BlankGrid& blank) {
    constexpr int most_passes = 20; // each makes elements shorter; a few do in practice
    std::vector<Stretch> stretches = stretches_of(blank);
    const std::vector<double> joints = joints_of(blank, stretches);
    std::vector<double> stations = divided(stretches, joints);
    for (int pass = 0; pass < most_passes; ++pass) {
        const std::vector<Stretch> more = too_short(stations);
        if (more.empty()) {
            break;
        }
        stretches.insert(stretches.end(), more.begin(), more.end());
        stations = divided(stretches, joints);
    }
    return stations;
}

} // namespace flangewright::grid
