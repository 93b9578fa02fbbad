#include "mesh/grid/trimmed_mesh.hpp"

#include "mesh/base/check.hpp"
#include "mesh/outline/profile.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::grid {

namespace {

constexpr int cut_away = -1;

/// How far off the free edge the row nearest to a distance lies, at the first station.
double cut_off_at(const SheetMesh& mesh, double distance) {
    const std::vector<int>& line = mesh.station_lines.front();
    const auto off = [&](int node) { return std::abs(mesh.distance[node] - distance); };
    const int nearest = *std::ranges::min_element(line, {}, off);
    return mesh.distance[line.back()] - mesh.distance[nearest];
}

/// Where the cut runs at each node's station. Rows near the edge keep off it as far everywhere;
/// where the mesh is not mapped it runs straight between the lines of nodes beside.
std::vector<double> cuts_of_nodes(const SheetMesh& mesh, double cut_off) {
    std::vector<outline::ProfilePoint> points;
    for (const std::vector<int>& line : mesh.station_lines) {
        points.push_back({mesh.station[line.back()], mesh.distance[line.back()] - cut_off});
    }
    const outline::Profile cut(points);
    std::vector<double> cuts;
    cuts.reserve(static_cast<std::size_t>(mesh.n_nodes()));
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        cuts.push_back(cut.at(mesh.station[node]));
    }
    for (std::size_t i = 0; i < points.size(); ++i) { // to the last bit
        for (const int node : mesh.station_lines[i]) {
            cuts[static_cast<std::size_t>(node)] = points[i].value;
        }
    }
    return cuts;
}

/// New number of every node, in the order of the old ones.
std::vector<int> new_numbers(const SheetMesh& mesh, double cut_off) {
    constexpr double rounding = 1e-9;
    const std::vector<double> cuts = cuts_of_nodes(mesh, cut_off);
    std::vector<int> numbers(static_cast<std::size_t>(mesh.n_nodes()), cut_away);
    int next = 0;
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        const auto i = static_cast<std::size_t>(node);
        if (mesh.distance[node] <= cuts[i] + rounding * (1 + std::abs(cuts[i]))) {
            numbers[i] = next++;
        }
    }
    return numbers;
}

std::vector<int> renumbered(const std::vector<int>& nodes, const std::vector<int>& numbers) {
    std::vector<int> kept;
    for (const int node : nodes) {
        if (const int number = numbers[static_cast<std::size_t>(node)]; number != cut_away) {
            kept.push_back(number);
        }
    }
    return kept;
}

void copy_nodes(const SheetMesh& mesh, TrimmedMesh& trimmed) {
    trimmed.mesh.positions = mesh.positions(Eigen::all, trimmed.kept_nodes);
    trimmed.mesh.station = mesh.station(trimmed.kept_nodes);
    trimmed.mesh.distance = mesh.distance(trimmed.kept_nodes);
}

void copy_quads(const SheetMesh& mesh, const std::vector<int>& numbers, TrimmedMesh& trimmed) {
    for (int k = 0; k < mesh.n_elements(); ++k) {
        std::array<int, 4> quad = mesh.quads[static_cast<std::size_t>(k)];
        for (int& node : quad) {
            node = numbers[static_cast<std::size_t>(node)];
        }
        if (std::ranges::find(quad, cut_away) == quad.end()) {
            trimmed.mesh.quads.push_back(quad);
            trimmed.kept_quads.push_back(k);
        }
    }
}

} // namespace

TrimmedMesh trim_beyond(const SheetMesh& mesh, double distance) {
    check(
        std::ranges::all_of(mesh.rims, [](const Rim& rim) { return rim.kind == Rim::Kind::hole; }),
        "an edge with notches or tabs is not trimmed"
    );
    const double cut_off = cut_off_at(mesh, distance);
    const double edge = mesh.distance[mesh.station_lines.front().back()] - cut_off;
    check(edge > mesh.distance[mesh.bend_begin.front()], "a flange stays");
    const std::vector<int> numbers = new_numbers(mesh, cut_off);
    TrimmedMesh trimmed;
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        if (numbers[static_cast<std::size_t>(node)] != cut_away) {
            trimmed.kept_nodes.push_back(node);
        }
    }
    copy_nodes(mesh, trimmed);
    copy_quads(mesh, numbers, trimmed);
    SheetMesh& cut = trimmed.mesh;
    for (const std::vector<int>& line : mesh.station_lines) {
        cut.station_lines.push_back(renumbered(line, numbers));
        cut.free_edge.push_back(cut.station_lines.back().back());
    }
    for (const Rim& rim : mesh.rims) {
        const std::vector<int> nodes = renumbered(rim.nodes, numbers);
        if (nodes.size() == rim.nodes.size()) { // else it was cut off with what lay round it
            cut.rims.push_back({rim.kind, rim.number, nodes});
        }
    }
    cut.web_edge = renumbered(mesh.web_edge, numbers);
    cut.bend_begin = renumbered(mesh.bend_begin, numbers);
    cut.bend_end = renumbered(mesh.bend_end, numbers);
    cut.start_end = cut.station_lines.front();
    cut.far_end = cut.station_lines.back();
    return trimmed;
}

} // namespace flangewright::grid
