#include "mesh/grid/opening_sides.hpp"

#include "mesh/grid/grading.hpp"
#include "mesh/outline/polygons.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace flangewright::grid {

namespace {

/// Round of an opening between two angles from the local x axis.
struct Arc {
    Eigen::Vector3d centre;
    Eigen::Vector3d x;
    Eigen::Vector3d y;
    double radius = 0;

    [[nodiscard]] SideNode at(double angle) const {
        return {centre + radius * (std::cos(angle) * x + std::sin(angle) * y), new_node};
    }
};

/// A ring of nodes about a hole, `off` from its rim.
Side ring_of(const BlankGrid& blank, const outline::Hole& hole, double off) {
    const outline::LineFrame frame = blank.line.frame(hole.station);
    const Arc arc{
        blank.line.point({hole.station, hole.distance}),
        frame.tangent,
        frame.outward,
        0.5 * hole.diameter + off};
    Side side;
    for (int i = 0; i < blank.n_round_hole; ++i) {
        side.push_back(arc.at(2 * std::numbers::pi * i / blank.n_round_hole));
    }
    return side;
}

/// Nodes of the mapped mesh from one place to another along a line of nodes, the last left out.
void add_grid_nodes(
    Side& side,
    const SheetMesh& mapped,
    const std::array<int, 2>& from,
    const std::array<int, 2>& to
) {
    const std::array<int, 2> step{
        (to[0] > from[0]) - (to[0] < from[0]), (to[1] > from[1]) - (to[1] < from[1])};
    for (std::array<int, 2> at = from; at != to; at = {at[0] + step[0], at[1] + step[1]}) {
        const int node =
            mapped.station_lines[static_cast<std::size_t>(at[0])][static_cast<std::size_t>(at[1])];
        side.push_back({mapped.positions.col(node), node});
    }
}

/// A slot's outline, seen from the edge with the station growing: where it leaves the edge, where
/// its round begins and ends, where it comes back.
class Slot {
public:
    Slot(const BlankGrid& blank, const outline::Notch& notch) : blank_(blank) {
        const double edge = width_at(blank, notch.station);
        const double half = 0.5 * notch.width;
        const outline::LineFrame frame = blank.line.frame(notch.station);
        const double scale = 1 - blank.line.curvature(notch.station) * edge;
        from_ = notch.station - half / scale;
        to_ = notch.station + half / scale;
        round_ = {
            blank.line.point({notch.station, edge - notch.depth + half}),
            frame.tangent,
            frame.outward,
            half};
    }

    [[nodiscard]] double from() const { return from_; }
    [[nodiscard]] double to() const { return to_; }

    /// From the mouth's one corner to before the other; an even number of nodes.
    void add_to(Side& side) const {
        constexpr double pi = std::numbers::pi;
        const int n_round = blank_.n_round_hole / 2;
        const double size = pi * round_.radius / n_round;
        const Eigen::Vector3d in = blank_.line.point({from_, width_at(blank_, from_)});
        const Eigen::Vector3d out = blank_.line.point({to_, width_at(blank_, to_)});
        add_straight(side, in, round_.at(pi).position, size);
        for (int i = 0; i < n_round; ++i) {
            side.push_back(round_.at(pi + pi * i / n_round));
        }
        add_straight(side, round_.at(2 * pi).position, out, size);
    }

private:
    static void
    add_straight(Side& side, const Eigen::Vector3d& from, const Eigen::Vector3d& to, double size) {
        const double length = (to - from).norm();
        constexpr double coarser = 2; // than the round
        const int n = 2 * static_cast<int>(std::ceil(length / (2 * coarser * size) - 0.1));
        for (int i = 0; i < n; ++i) {
            side.push_back({from + (to - from) * i / n, new_node});
        }
    }

    const BlankGrid& blank_;
    double from_ = 0;
    double to_ = 0;
    Arc round_{};
};

/// Nodes along the free edge, the last place left out; an even number. The first may be the mapped
/// mesh's.
void add_edge(
    Side& side, const BlankGrid& blank, const Interval& stations, double size, int first
) {
    const double length = stations.end - stations.begin;
    const int n = 2 * std::max(1, static_cast<int>(std::lround(0.5 * length / size)));
    for (int i = 0; i < n; ++i) {
        const double station = stations.begin + length * i / n;
        const double width = width_at(blank, station);
        side.push_back({blank.line.point({station, width}), i == 0 ? first : new_node});
    }
}

/// The notches of a window by growing station.
std::vector<std::size_t> by_station(const BlankGrid& blank, const Window& window) {
    std::vector<std::size_t> order = window.notches;
    std::ranges::sort(order, {}, [&](std::size_t i) { return blank.openings.notches[i].station; });
    return order;
}

} // namespace

double
metal_round(const BlankGrid& blank, const Window& window, std::size_t hole, const Side& border) {
    const outline::Hole& own = blank.openings.holes[hole];
    const Eigen::Vector3d centre = blank.line.point({own.station, own.distance});
    double metal = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < border.size(); ++i) {
        metal = std::min(
            metal,
            outline::off_side(centre, border[i].position, border[(i + 1) % border.size()].position)
                - 0.5 * own.diameter
        );
    }
    for (const std::size_t other : window.holes) {
        const outline::Hole& next = blank.openings.holes[other];
        if (other != hole) {
            const Eigen::Vector3d at = blank.line.point({next.station, next.distance});
            // Half of it, since both have rings.
            metal = std::min(
                metal, 0.5 * ((at - centre).norm() - 0.5 * (own.diameter + next.diameter))
            );
        }
    }
    return metal;
}

std::vector<Side> rings_of(const BlankGrid& blank, const outline::Hole& hole, double metal) {
    constexpr double reach = 0.75; // radii
    constexpr double growth = 1.25;
    const double extent = std::min(reach * 0.5 * hole.diameter, 0.5 * metal);
    double width = std::numbers::pi * hole.diameter / blank.n_round_hole;
    std::vector<double> offs{0};
    while (offs.back() + 0.5 * width < extent) {
        offs.push_back(offs.back() + width);
        width *= growth;
    }
    std::vector<Side> rings;
    for (const double off : offs) {
        const double scale = offs.back() > 0 ? extent / offs.back() : 1;
        rings.push_back(ring_of(blank, hole, off * scale));
    }
    return rings;
}

Side notched_edge(
    const SheetMesh& mapped, const BlankGrid& blank, const Window& window, const WindowPlace& place
) {
    const std::vector<std::size_t> order = by_station(blank, window);
    if (order.empty()) {
        return {};
    }
    const auto edge_node = [&](int station) {
        return mapped.station_lines[static_cast<std::size_t>(station)]
                                   [static_cast<std::size_t>(place.last_row)];
    };
    Side side;
    double at = window.stations.begin;
    int first = edge_node(place.first_station);
    for (const std::size_t i : order) {
        const outline::Notch& notch = blank.openings.notches[i];
        const Slot slot(blank, notch);
        const double size = std::numbers::pi * notch.width / blank.n_round_hole;
        add_edge(side, blank, {at, slot.from()}, 2 * size, first);
        slot.add_to(side);
        at = slot.to();
        first = new_node;
        if (i == order.back()) {
            add_edge(side, blank, {at, window.stations.end}, 2 * size, first);
        }
    }
    const int last = edge_node(place.last_station);
    side.push_back({mapped.positions.col(last), last});
    return side;
}

std::vector<NotchEnd> notch_ends(const BlankGrid& blank, const Window& window, const Side& edge) {
    std::vector<NotchEnd> ends;
    for (const std::size_t i : by_station(blank, window)) {
        const Slot slot(blank, blank.openings.notches[i]);
        const Eigen::Vector3d mouth = blank.line.point({slot.to(), width_at(blank, slot.to())});
        const auto off = [&mouth](const SideNode& node) { return (node.position - mouth).norm(); };
        const auto corner = std::ranges::min_element(edge, {}, off);
        ends.push_back({i, static_cast<std::size_t>(corner - edge.begin())});
    }
    if (!ends.empty()) {
        ends.back().place = edge.size() - 1;
    }
    return ends;
}

Side border_of(const SheetMesh& mapped, const WindowPlace& at, const Side& edge) {
    Side side;
    add_grid_nodes(side, mapped, {at.first_station, at.first_row}, {at.last_station, at.first_row});
    add_grid_nodes(side, mapped, {at.last_station, at.first_row}, {at.last_station, at.last_row});
    if (edge.empty()) {
        add_grid_nodes(
            side, mapped, {at.last_station, at.last_row}, {at.first_station, at.last_row}
        );
    } else {
        side.insert(side.end(), edge.rbegin(), edge.rend() - 1);
    }
    add_grid_nodes(side, mapped, {at.first_station, at.last_row}, {at.first_station, at.first_row});
    return side;
}

} // namespace flangewright::grid
