#include "mesh/grid/blank_mesher.hpp"

#include "mesh/base/check.hpp"
#include "mesh/grid/gmsh_session.hpp"
#include "mesh/grid/grading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace flangewright::grid {

namespace {

/// Lines of nodes both ways: node (i, j) lies at stations[i], distances[j] and has number
/// i * distances.size() + j.
struct NodeLines {
    std::vector<double> stations;
    std::vector<double> distances;

    [[nodiscard]] int n_stations() const { return static_cast<int>(stations.size()); }
    [[nodiscard]] int n_distances() const { return static_cast<int>(distances.size()); }
    [[nodiscard]] int number(int i, int j) const { return i * n_distances() + j; }
};

void check_blank(const BlankGrid& blank) {
    const outline::BendLine& line = blank.line;
    check(blank.web_width > 0 && blank.bend_width > 0, "web and bend have a width");
    check(blank.flange_width >= blank.bend_width * (1 - 1e-9), "the flange holds the whole bend");
    check(
        line.length() > 0 && line.sweep() < 2 * std::numbers::pi * (1 - 1e-9), "the line is open"
    );
    check(
        -line.curvature() * blank.web_width < 1 && line.curvature() * blank.flange_width < 1,
        "the blank ends before the centre of the arc"
    );
    check(
        blank.cut_width == 0
            || (blank.cut_width > blank.bend_width * (1 + 1e-9)
                && blank.cut_width < blank.flange_width * (1 - 1e-9)),
        "the cut lies in the flange"
    );
    check(blank.n_round_nose > 0 && blank.growth > 1, "element counts and growth make sense");
    check(blank.widest > 0 && blank.widest_in_flange > 0, "element widths exist");
    check(blank.longest > 0 && blank.largest_turn > 0, "element lengths exist");
}

/// Elements along each column; a column turns by at most 2 pi / 3.
std::vector<Division> columns_along(const BlankGrid& blank) {
    constexpr double rounding = 1e-9;
    const double by_length = blank.line.length() / blank.longest;
    const double by_turn = blank.line.sweep() / blank.largest_turn;
    const int n_columns = 1 + static_cast<int>(blank.line.sweep() / (2 * std::numbers::pi / 3));
    const int n_elements = std::max(
        {n_columns,
         static_cast<int>(std::ceil(by_length - rounding)),
         static_cast<int>(std::ceil(by_turn - rounding))}
    );
    std::vector<Division> columns(static_cast<std::size_t>(n_columns));
    for (int i = 0; i < n_columns; ++i) {
        const int begin = n_elements * i / n_columns;
        const int end = n_elements * (i + 1) / n_columns;
        columns[static_cast<std::size_t>(i)].n_elements = end - begin;
    }
    return columns;
}

std::vector<double> stations_along(const BlankGrid& blank, const std::vector<Division>& columns) {
    int n_elements = 0;
    for (const Division& column : columns) {
        n_elements += column.n_elements;
    }
    std::vector<double> stations;
    for (int i = 0; i <= n_elements; ++i) {
        stations.push_back(blank.line.length() * i / n_elements);
    }
    return stations;
}

PatchNet net_of(
    const BlankGrid& blank,
    const std::vector<Division>& columns,
    const std::vector<Band>& bands,
    const NodeLines& lines
) {
    PatchNet net;
    net.along = columns;
    if (blank.line.curve() != outline::Curve::straight) {
        net.centre = blank.line.point({0, 1 / blank.line.curvature()});
    }
    for (const Band& band : bands) {
        net.across.push_back(band.division);
    }
    std::size_t i = 0;
    for (std::size_t column = 0; column <= columns.size(); ++column) {
        std::vector<Eigen::Vector3d>& corners = net.corners.emplace_back();
        corners.push_back(blank.line.point({lines.stations[i], bands.front().begin}));
        for (const Band& band : bands) {
            corners.push_back(blank.line.point({lines.stations[i], band.end}));
        }
        if (column < columns.size()) {
            i += static_cast<std::size_t>(columns[column].n_elements);
        }
    }
    return net;
}

/// Index of the nearest of growing values.
int nearest(const std::vector<double>& values, double value) {
    const auto above = std::lower_bound(values.begin(), values.end(), value);
    const int i = static_cast<int>(above - values.begin());
    if (i == 0 || above == values.end()) {
        return std::min(i, static_cast<int>(values.size()) - 1);
    }
    return value - *(above - 1) < *above - value ? i - 1 : i;
}

/// The number each of the library's nodes has by its lines; nothing if one lies off its place.
std::optional<std::vector<int>>
numbers_by_lines(const PatchMesh& raw, const BlankGrid& blank, const NodeLines& lines) {
    // Far above what the library is off (4e-7 mm seen on arcs), far below any element.
    const double off_place = 1e-2 * blank.bend_width / blank.n_round_nose;
    std::vector<int> numbers;
    for (Eigen::Index node = 0; node < raw.positions.cols(); ++node) {
        const outline::LinePosition at = blank.line.locate(raw.positions.col(node));
        const int i = nearest(lines.stations, at.station);
        const int j = nearest(lines.distances, at.distance);
        const Eigen::Vector3d place = blank.line.point(
            {lines.stations[static_cast<std::size_t>(i)],
             lines.distances[static_cast<std::size_t>(j)]}
        );
        if ((raw.positions.col(node) - place).norm() > off_place) {
            return std::nullopt;
        }
        numbers.push_back(lines.number(i, j));
    }
    return numbers;
}

/// Quads renumbered, each starting at its lowest node and going counter-clockwise, sorted; nothing
/// if they don't fill every cell between the lines once.
std::optional<std::vector<std::array<int, 4>>>
cells(const PatchMesh& raw, const std::vector<int>& numbers, const NodeLines& lines) {
    std::vector<std::array<int, 4>> quads;
    for (std::array<int, 4> quad : raw.quads) {
        for (int& node : quad) {
            node = numbers[static_cast<std::size_t>(node)];
        }
        std::rotate(quad.begin(), std::min_element(quad.begin(), quad.end()), quad.end());
        if (quad[1] < quad[3]) {
            std::swap(quad[1], quad[3]);
        }
        quads.push_back(quad);
    }
    std::sort(quads.begin(), quads.end());
    std::size_t k = 0;
    for (int i = 0; i + 1 < lines.n_stations(); ++i) {
        for (int j = 0; j + 1 < lines.n_distances(); ++j, ++k) {
            const std::array<int, 4> cell{
                lines.number(i, j),
                lines.number(i + 1, j),
                lines.number(i + 1, j + 1),
                lines.number(i, j + 1)};
            if (k >= quads.size() || quads[k] != cell) {
                return std::nullopt;
            }
        }
    }
    return k == quads.size() ? std::optional(quads) : std::nullopt;
}

/// Puts every node exactly on its lines: the library's own places along an arc are off by its
/// integration of the arc's length, far more than rounding.
void place_nodes(SheetMesh& mesh, const outline::BendLine& line, const NodeLines& lines) {
    const int n_nodes = lines.n_stations() * lines.n_distances();
    mesh.positions.resize(3, n_nodes);
    mesh.station.resize(n_nodes);
    mesh.distance.resize(n_nodes);
    for (int i = 0; i < lines.n_stations(); ++i) {
        std::vector<int>& station_line = mesh.station_lines.emplace_back();
        for (int j = 0; j < lines.n_distances(); ++j) {
            const outline::LinePosition at{
                lines.stations[static_cast<std::size_t>(i)],
                lines.distances[static_cast<std::size_t>(j)]};
            const int node = lines.number(i, j);
            mesh.positions.col(node) = line.point(at);
            mesh.station[node] = at.station;
            mesh.distance[node] = at.distance;
            station_line.push_back(node);
        }
    }
}

std::vector<int> nodes_at_distance(const NodeLines& lines, double distance) {
    const int j = nearest(lines.distances, distance);
    std::vector<int> nodes;
    nodes.reserve(lines.stations.size());
    for (int i = 0; i < lines.n_stations(); ++i) {
        nodes.push_back(lines.number(i, j));
    }
    return nodes;
}

void name_edges(SheetMesh& mesh, const BlankGrid& blank, const NodeLines& lines) {
    mesh.web_edge = nodes_at_distance(lines, lines.distances.front());
    mesh.bend_begin = nodes_at_distance(lines, 0);
    mesh.bend_end = nodes_at_distance(lines, blank.bend_width);
    mesh.free_edge = nodes_at_distance(lines, lines.distances.back());
    mesh.start_end = mesh.station_lines.front();
    mesh.far_end = mesh.station_lines.back();
}

OutsideProblem not_mapped(const PatchMesh& raw) {
    return {
        "meshing the blank",
        fmt::format(
            "the Gmsh library gave {} elements that do not lie in rows and columns",
            raw.quads.size()
        ),
        "report this with the case file; a different width or element size may get round it"};
}

} // namespace

Result<SheetMesh> mesh_blank(const BlankGrid& blank) {
    check_blank(blank);
    const std::vector<Division> columns = columns_along(blank);
    const std::vector<Band> bands = bands_across(blank);
    const NodeLines lines{stations_along(blank, columns), distances_across(bands)};

    const Result<PatchMesh> raw = mesh_patches(net_of(blank, columns, bands, lines));
    if (!raw) {
        return tl::unexpected(raw.error());
    }
    const auto numbers = numbers_by_lines(*raw, blank, lines);
    const auto quads = numbers ? cells(*raw, *numbers, lines) : std::nullopt;
    if (!quads) {
        return tl::unexpected(not_mapped(*raw));
    }
    SheetMesh mesh;
    mesh.quads = *quads;
    place_nodes(mesh, blank.line, lines);
    name_edges(mesh, blank, lines);
    return mesh;
}

} // namespace flangewright::grid
