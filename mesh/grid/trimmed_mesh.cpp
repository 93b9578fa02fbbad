#include "mesh/grid/trimmed_mesh.hpp"

#include "mesh/base/check.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::grid {

namespace {

constexpr int cut_away = -1;

/// Place in a station line, web edge to free edge, of the node nearest to the distance.
std::size_t row_at(const SheetMesh& mesh, double distance) {
    const std::vector<int>& line = mesh.station_lines.front();
    const auto off = [&](int node) { return std::abs(mesh.distance[node] - distance); };
    const auto nearest = std::ranges::min_element(line, {}, off);
    return static_cast<std::size_t>(nearest - line.begin());
}

/// New number of every node, in the order of the old ones.
std::vector<int> new_numbers(const SheetMesh& mesh, std::size_t last_row) {
    std::vector<int> numbers(static_cast<std::size_t>(mesh.n_nodes()), cut_away);
    for (const std::vector<int>& line : mesh.station_lines) {
        for (std::size_t j = 0; j <= last_row; ++j) {
            numbers[static_cast<std::size_t>(line[j])] = 0;
        }
    }
    int next = 0;
    for (int& number : numbers) {
        if (number != cut_away) {
            number = next++;
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
    const std::size_t last_row = row_at(mesh, distance);
    const int edge = mesh.station_lines.front()[last_row];
    check(mesh.distance[edge] > mesh.distance[mesh.bend_begin.front()], "a flange stays");
    const std::vector<int> numbers = new_numbers(mesh, last_row);
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
    cut.web_edge = renumbered(mesh.web_edge, numbers);
    cut.bend_begin = renumbered(mesh.bend_begin, numbers);
    cut.bend_end = renumbered(mesh.bend_end, numbers);
    cut.start_end = cut.station_lines.front();
    cut.far_end = cut.station_lines.back();
    return trimmed;
}

} // namespace flangewright::grid
