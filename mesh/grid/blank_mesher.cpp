#include "mesh/grid/blank_mesher.hpp"

#include "mesh/base/check.hpp"
#include "mesh/grid/gmsh_session.hpp"
#include "mesh/grid/grading.hpp"
#include "mesh/grid/opened_mesh.hpp"
#include "mesh/grid/opening_windows.hpp"
#include "mesh/grid/stations.hpp"

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

void check_widths(const BlankGrid& blank) {
    const outline::Profile& widths = blank.flange_widths;
    if (widths.is_empty()) {
        return;
    }
    const double off_edge = blank.flange_width - kept_width(blank);
    check(widths.most() <= blank.flange_width, "the flange is as wide as it is anywhere");
    check(widths.least() - off_edge > alike_width(blank), "the flange goes past its bends");
}

void check_openings(const BlankGrid& blank) {
    const outline::Openings& openings = blank.openings;
    check(
        openings.notches.empty() && openings.tabs.empty() ? true : blank.cut_width == 0,
        "an edge with notches or tabs is not cut"
    );
    for (const outline::Hole& hole : openings.holes) {
        check(hole.diameter > 0, "a hole has a size");
    }
    check(blank.n_round_hole > 0 && blank.n_round_hole % 4 == 0, "a hole is divided in fours");
}

void check_blank(const BlankGrid& blank) {
    const outline::BendLine& line = blank.line;
    check(blank.web_width > 0 && blank.bend_width > 0, "web and bend have a width");
    check(blank.flange_width >= blank.bend_width * (1 - 1e-9), "the flange holds the whole bend");
    check(
        line.length() > 0 && line.largest_turn() < 2 * std::numbers::pi * (1 - 1e-9),
        "the line is open"
    );
    check(
        blank.web_width < line.convex_radius() && blank.flange_width < line.concave_radius(),
        "the blank ends before the centre of the arc"
    );
    check(
        blank.cut_width == 0
            || (blank.cut_width > blank.bend_width * (1 + 1e-9)
                && blank.cut_width < blank.flange_width * (1 - 1e-9)),
        "the cut lies in the flange"
    );
    check_widths(blank);
    check_openings(blank);
    check(
        blank.second_bend_begin == 0
            || (blank.second_bend_begin > blank.bend_width && blank.second_bend_width > 0
                && blank.second_bend_begin + blank.second_bend_width < kept_width(blank)
                && blank.n_round_second_nose > 0),
        "the second bend lies between the first and the edge that stays"
    );
    check(blank.n_round_nose > 0 && blank.growth > 1, "element counts and growth make sense");
    check(blank.widest > 0 && blank.widest_in_flange > 0, "element widths exist");
    check(blank.longest > 0 && blank.largest_turn > 0, "element lengths exist");
}

/// The net as the library sees it: flat, stations evenly apart. The library only has to map it;
/// place_nodes() puts the nodes where they belong.
PatchNet net_of(const BlankGrid& blank, const std::vector<Band>& bands, const NodeLines& lines) {
    PatchNet net;
    net.along = {{lines.n_stations() - 1, 1}};
    for (const Band& band : bands) {
        net.across.push_back(band.division);
    }
    for (const double station : {0.0, blank.line.length()}) {
        std::vector<Eigen::Vector3d>& corners = net.corners.emplace_back();
        corners.emplace_back(station, bands.front().begin, 0);
        for (const Band& band : bands) {
            corners.emplace_back(station, band.end, 0);
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
    const double spacing = blank.line.length() / (lines.n_stations() - 1);
    // Far above what the library is off by, far below any element.
    const double off_place = 1e-2 * std::min(spacing, blank.bend_width / blank.n_round_nose);
    std::vector<int> numbers;
    for (Eigen::Index node = 0; node < raw.positions.cols(); ++node) {
        const Eigen::Vector3d at = raw.positions.col(node);
        const double i = std::round(at.x() / spacing);
        const int j = nearest(lines.distances, at.y());
        const double off_station = std::abs(at.x() - i * spacing);
        const double off_distance = std::abs(at.y() - lines.distances[static_cast<std::size_t>(j)]);
        if (i < 0 || i >= lines.n_stations() || std::max(off_station, off_distance) > off_place) {
            return std::nullopt;
        }
        numbers.push_back(lines.number(static_cast<int>(i), j));
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

/// Puts every node exactly on its lines in the plane of the web.
void place_nodes(SheetMesh& mesh, const BlankGrid& blank, const NodeLines& lines) {
    const int n_nodes = lines.n_stations() * lines.n_distances();
    mesh.positions.resize(3, n_nodes);
    mesh.station.resize(n_nodes);
    mesh.distance.resize(n_nodes);
    for (int i = 0; i < lines.n_stations(); ++i) {
        std::vector<int>& station_line = mesh.station_lines.emplace_back();
        const double station = lines.stations[static_cast<std::size_t>(i)];
        for (int j = 0; j < lines.n_distances(); ++j) {
            const outline::LinePosition at{
                station,
                row_distance(blank, lines.distances[static_cast<std::size_t>(j)], station)};
            const int node = lines.number(i, j);
            mesh.positions.col(node) = blank.line.point(at);
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

/// One band for each strip.
std::vector<Band> bands_between(const std::vector<double>& distances) {
    std::vector<Band> bands;
    for (std::size_t j = 1; j < distances.size(); ++j) {
        bands.push_back({distances[j - 1], distances[j], {1, 1}});
    }
    return bands;
}

/// The blank on lines of nodes both ways.
Result<SheetMesh>
map_blank(const BlankGrid& blank, const std::vector<Band>& bands, const NodeLines& lines) {
    const Result<PatchMesh> raw = mesh_patches(net_of(blank, bands, lines));
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
    place_nodes(mesh, blank, lines);
    name_edges(mesh, blank, lines);
    return mesh;
}

/// The same with each hole where its row is, which is where windows are looked for.
BlankGrid with_holes_by_rows(const BlankGrid& blank) {
    BlankGrid by_rows = blank;
    for (outline::Hole& hole : by_rows.openings.holes) {
        hole.distance = row_at(blank, hole.distance, hole.station);
    }
    return by_rows;
}

} // namespace

Result<SheetMesh> mesh_blank(const BlankGrid& blank) {
    check_blank(blank);
    std::vector<Band> bands = bands_across(blank);
    NodeLines lines{stations_along(blank), distances_across(bands)};
    if (blank.openings.are_none()) {
        return map_blank(blank, bands, lines);
    }
    const WindowedLines windowed =
        lines_with_windows(with_holes_by_rows(blank), lines.stations, lines.distances);
    lines = {windowed.stations, windowed.distances};
    const Result<SheetMesh> mapped = map_blank(blank, bands_between(lines.distances), lines);
    return mapped ? open_mesh(*mapped, blank, windowed) : mapped;
}

} // namespace flangewright::grid
