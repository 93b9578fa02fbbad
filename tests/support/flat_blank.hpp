// A small mapped mesh of a flat blank and ideal folded shapes of it, for tests that need no mesher.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"
#include "mesh/outline/bend_line.hpp"

#include <Eigen/Core>

#include <cmath>
#include <vector>

namespace flangewright::support {

/// Sizes of the blank and numbers of elements. Lengths in mm.
struct FlatBlank {
    outline::BendLine line = outline::BendLine::straight(60);
    double web_width = 20;
    double bend_width = 5;
    double flange_width = 20; // bend included
    int n_web = 6;
    int n_bend = 8;
    int n_straight = 12;
    int n_along = 12;
};

/// Flat distances of a station line's nodes, web edge to free edge.
inline std::vector<double> distances_of(const FlatBlank& blank) {
    std::vector<double> distances;
    const auto add = [&](double from, double to, int n) {
        for (int i = 0; i < n; ++i) {
            distances.push_back(from + (to - from) * i / n);
        }
    };
    add(-blank.web_width, 0, blank.n_web);
    add(0, blank.bend_width, blank.n_bend);
    add(blank.bend_width, blank.flange_width, blank.n_straight);
    distances.push_back(blank.flange_width);
    return distances;
}

/// The mesh, node by node along each station line.
inline grid::SheetMesh flat_blank(const FlatBlank& blank) {
    const std::vector<double> distances = distances_of(blank);
    const int n_across = static_cast<int>(distances.size());
    const int n_nodes = n_across * (blank.n_along + 1);
    grid::SheetMesh mesh;
    mesh.positions.resize(3, n_nodes);
    mesh.station.resize(n_nodes);
    mesh.distance.resize(n_nodes);
    for (int i = 0; i <= blank.n_along; ++i) {
        std::vector<int> line;
        for (int j = 0; j < n_across; ++j) {
            const int node = i * n_across + j;
            mesh.station(node) = blank.line.length() * i / blank.n_along;
            mesh.distance(node) = distances[static_cast<std::size_t>(j)];
            mesh.positions.col(node) = blank.line.point({mesh.station(node), mesh.distance(node)});
            line.push_back(node);
            if (i > 0 && j > 0) {
                mesh.quads.push_back({node - n_across - 1, node - 1, node, node - n_across});
            }
        }
        mesh.web_edge.push_back(line.front());
        mesh.free_edge.push_back(line.back());
        mesh.bend_begin.push_back(line[static_cast<std::size_t>(blank.n_web)]);
        mesh.bend_end.push_back(line[static_cast<std::size_t>(blank.n_web + blank.n_bend)]);
        mesh.station_lines.push_back(line);
    }
    mesh.start_end = mesh.station_lines.front();
    mesh.far_end = mesh.station_lines.back();
    return mesh;
}

/// A shape of the mesh.
struct Folded {
    Eigen::Matrix3Xd positions;
    Eigen::Matrix3Xd directors;
};

/// Folds one node's flat distance down round a mid-surface radius by `angle`, lengths kept.
inline void fold_node(
    const grid::SheetMesh& mesh,
    const outline::BendLine& line,
    int node,
    double mid_radius,
    double angle,
    Folded& folded
) {
    const double distance = mesh.distance(node);
    const double turned = std::min(std::max(distance, 0.0) / mid_radius, angle);
    const double straight = distance - turned * mid_radius;
    const double out = mid_radius * std::sin(turned) + straight * std::cos(turned);
    const double down = mid_radius * (1 - std::cos(turned)) + straight * std::sin(turned);
    const Eigen::Vector3d up = Eigen::Vector3d::UnitZ();
    folded.positions.col(node) = line.point({mesh.station(node), out}) - down * up;
    folded.directors.col(node) =
        std::sin(turned) * line.frame(mesh.station(node)).outward + std::cos(turned) * up;
}

/// The whole blank folded by one angle.
inline Folded
fold(const grid::SheetMesh& mesh, const outline::BendLine& line, double mid_radius, double angle) {
    Folded folded{Eigen::Matrix3Xd(3, mesh.n_nodes()), Eigen::Matrix3Xd(3, mesh.n_nodes())};
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        fold_node(mesh, line, node, mid_radius, angle, folded);
    }
    return folded;
}

} // namespace flangewright::support
