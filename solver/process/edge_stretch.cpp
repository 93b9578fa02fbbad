#include "solver/process/edge_stretch.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace flangewright::process {

namespace {

constexpr int n_zones_most = 8;
constexpr double n_elements_least = 3; // along a zone
// The jaws of a shrinker or stretcher reach about an inch in, over most of a common flange. From
// memory, to be confirmed. A narrower band does less for the same work.
constexpr double band_of_straight = 2.0 / 3;

double first_distance(const grid::SheetMesh& mesh, const std::vector<int>& nodes) {
    return mesh.distance[nodes.front()];
}

// Where the worked band begins: a row of nodes, so that the mesh takes up the even fall whole.
std::size_t first_row_of_band(const grid::SheetMesh& mesh) {
    const double edge = first_distance(mesh, mesh.free_edge);
    const double bend = first_distance(mesh, mesh.bend_end);
    const double wanted = edge - band_of_straight * std::max(edge - bend, 0.0);
    const std::vector<int>& line = mesh.station_lines.front();
    const auto off = [&](int node) { return std::abs(mesh.distance[node] - wanted); };
    // Never the edge itself.
    std::size_t best = line.size() - 2;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        if (off(line[i]) < off(line[best])) {
            best = i;
        }
    }
    return best;
}

// The worked part of the flange at a station.
struct WorkedBand {
    double station = 0;
    double begin = 0;
    double edge = 0;
};

std::vector<WorkedBand> bands_along(const Workpiece& piece) {
    const grid::SheetMesh& mesh = piece.mesh;
    const std::size_t first_row = first_row_of_band(mesh);
    const std::vector<int>& first = mesh.station_lines.front();
    const bool is_plain = piece.job.blank.flange_widths.is_empty();
    std::vector<WorkedBand> bands;
    for (const std::vector<int>& line : mesh.station_lines) {
        // Lines may leave out nodes of the web: count from the edge.
        const int row = is_plain ? first[first_row] : line[line.size() + first_row - first.size()];
        bands.push_back({mesh.station[line.back()], mesh.distance[row], mesh.distance[line.back()]}
        );
    }
    return bands;
}

WorkedBand band_at(const std::vector<WorkedBand>& bands, double station) {
    std::size_t i = 1;
    while (i + 1 < bands.size() && bands[i].station < station) {
        ++i;
    }
    const WorkedBand& from = bands[i - 1];
    const WorkedBand& to = bands[i];
    const double share =
        std::clamp((station - from.station) / (to.station - from.station), 0.0, 1.0);
    return {
        station,
        from.begin + share * (to.begin - from.begin),
        from.edge + share * (to.edge - from.edge)};
}

// 1 well inside the zone, 0 well outside, halfway at the border to a neighbour.
double share_along(const std::vector<EdgeZone>& zones, std::size_t zone, double station) {
    const auto step = [&](double border) {
        const double blend = 0.5 * (zones[zone].to - zones[zone].from);
        return std::clamp(0.5 + (station - border) / blend, 0.0, 1.0);
    };
    const double begun = zone == 0 ? 1 : step(zones[zone].from);
    const double ended = zone + 1 == zones.size() ? 0 : step(zones[zone].to);
    return begun - ended;
}

// Weights of an element's corners at the in-plane point next to the first of them.
std::array<double, 4> weights_of_corners() {
    const double near = 0.5 * (1 + 1 / std::numbers::sqrt3);
    return {near * near, near * (1 - near), (1 - near) * (1 - near), near * (1 - near)};
}

// Plastic strain of tension along the line, over its part along the line.
struct Flow {
    material::SplitStrain strain{0.25, 0.75, 0}; // von Mises: half as much across, the other way
    double equivalent = 1;
};

Flow flow_along(const shell::ShellModel& model, std::size_t element) {
    if (model.section.yield == nullptr) {
        return {};
    }
    const material::SplitStrain strain = material::flow_direction(
        {*model.section.yield, model.references[element].rolling}, {1, 1, 0}
    );
    const double along = strain[0] + strain[1];
    return {strain / along, 1 / along};
}

} // namespace

std::vector<EdgeZone> edge_zones(const Workpiece& piece) {
    const double length = piece.job.blank.line.length();
    const auto n_elements = static_cast<double>(piece.mesh.station_lines.size()) - 1;
    const double shortest =
        std::max(piece.job.blank.flange_width, n_elements_least * length / n_elements);
    const int n = std::clamp(static_cast<int>(length / shortest), 1, n_zones_most);
    std::vector<EdgeZone> zones;
    zones.reserve(static_cast<std::size_t>(n));
    for (int i = 0; i < n; ++i) {
        zones.push_back({length * i / n, length * (i + 1) / n});
    }
    return zones;
}

Eigen::MatrixXd edge_shares(const Workpiece& piece, const std::vector<EdgeZone>& zones) {
    const grid::SheetMesh& mesh = piece.mesh;
    const std::vector<WorkedBand> bands = bands_along(piece);
    Eigen::MatrixXd shares(mesh.n_nodes(), static_cast<Eigen::Index>(zones.size()));
    std::vector<bool> is_done(static_cast<std::size_t>(mesh.n_nodes()), false);
    const auto fill = [&](int node, const WorkedBand& band) {
        const double out =
            std::max((mesh.distance[node] - band.begin) / (band.edge - band.begin), 0.0);
        for (std::size_t zone = 0; zone < zones.size(); ++zone) {
            shares(node, static_cast<Eigen::Index>(zone)) =
                out * share_along(zones, zone, mesh.station[node]);
        }
        is_done[static_cast<std::size_t>(node)] = true;
    };
    for (std::size_t i = 0; i < bands.size(); ++i) {
        for (const int node : mesh.station_lines[i]) {
            fill(node, bands[i]);
        }
    }
    for (int node = 0; node < mesh.n_nodes(); ++node) { // those round openings
        if (!is_done[static_cast<std::size_t>(node)]) {
            fill(node, band_at(bands, mesh.station[node]));
        }
    }
    return shares;
}

void add_edge_strain(
    const shell::ShellModel& model, const Eigen::VectorXd& amount, shell::SheetState& state
) {
    const auto n_layers = static_cast<std::size_t>(model.section.n_layers());
    const std::array<double, 4> weights = weights_of_corners();
    for (std::size_t point = 0; point < 4 * model.quads.size(); ++point) {
        const std::array<int, 4>& quad = model.quads[point / 4];
        double here = 0;
        for (std::size_t corner = 0; corner < 4; ++corner) {
            here += weights[corner] * amount[quad[(point + corner) % 4]];
        }
        const double along = std::log1p(here);
        const Flow flow = flow_along(model, point / 4);
        for (std::size_t k = 0; k < n_layers; ++k) {
            material::PointMemory& memory = state.points[point * n_layers + k];
            memory.plastic_mean += flow.strain[0] * along;
            memory.plastic_difference += flow.strain[1] * along;
            memory.plastic_shear += flow.strain[2] * along;
            memory.equivalent += flow.equivalent * std::abs(along);
        }
    }
}

} // namespace flangewright::process
