#include "solver/findings/hole_place.hpp"

#include "solver/findings/flange_angle.hpp"
#include "solver/findings/flange_depth.hpp"
#include "solver/findings/web_lift.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace flangewright::findings {

namespace {

Eigen::Vector3d centre_of(const std::vector<int>& rim, const PartShape& shape) {
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    for (const int node : rim) {
        sum += shape.positions.col(node);
    }
    return sum / static_cast<double>(rim.size());
}

void add_diameters(FormedHole& hole, const std::vector<int>& rim, const PartShape& shape) {
    hole.least_diameter = std::numeric_limits<double>::infinity();
    const std::size_t half = rim.size() / 2;
    for (std::size_t i = 0; i < half; ++i) {
        const double across =
            (shape.positions.col(rim[i]) - shape.positions.col(rim[i + half])).norm();
        hole.least_diameter = std::min(hole.least_diameter, across);
        hole.most_diameter = std::max(hole.most_diameter, across);
    }
}

/// Place of the station line nearest to a station.
std::size_t nearest_line(const grid::SheetMesh& mesh, double station) {
    std::size_t nearest = 0;
    const auto off = [&](std::size_t i) {
        return std::abs(mesh.station[mesh.bend_begin[i]] - station);
    };
    for (std::size_t i = 1; i < mesh.station_lines.size(); ++i) {
        nearest = off(i) < off(nearest) ? i : nearest;
    }
    return nearest;
}

} // namespace

std::vector<FormedHole>
formed_holes(const grid::SheetMesh& mesh, const PartShape& shape, const job::Job& job) {
    const WebLift web = set_on_block(mesh, shape, free_tilts(job.blank));
    std::vector<FormedHole> holes;
    for (const grid::Rim& rim : mesh.rims) {
        if (rim.kind != grid::Rim::Kind::hole || mesh.distance[rim.nodes.front()] < 0) {
            continue;
        }
        FormedHole hole;
        hole.number = static_cast<int>(rim.number) + 1;
        const Eigen::Vector3d centre = centre_of(rim.nodes, shape);
        hole.station = job.blank.line.locate(centre).station;
        const std::size_t line = nearest_line(mesh, hole.station);
        const double station = mesh.station[mesh.bend_begin[line]];
        const Section section(job.blank.line.frame(station), web.plane);
        const FlangeLine flange =
            fit_flange_line(mesh, shape, section, static_cast<int>(line), fit_window(job, station));
        const int edge = mesh.station_lines[line].back();
        const Section at_hole(job.blank.line.frame(hole.station), web.plane);
        // What lies between the centre and the edge, taken off the edge's depth.
        const Eigen::Vector2d to_edge = section.at(shape.positions.col(edge)) - at_hole.at(centre);
        hole.depth = flange_depth(shape, section, flange, mesh.bend_begin[line], edge)
            - flange.direction.dot(to_edge);
        add_diameters(hole, rim.nodes, shape);
        holes.push_back(hole);
    }
    std::ranges::sort(holes, {}, &FormedHole::number);
    return holes;
}

} // namespace flangewright::findings
