// How a flat strip has curved in its plane.
#pragma once

#include "solver/process/workpiece.hpp"

namespace flangewright::support {

/// In-plane curvature of the web's edge over the middle third of its length, 1/mm.
inline double edge_curvature(const process::Workpiece& piece) {
    const std::vector<int>& edge = piece.mesh.web_edge;
    const Eigen::Vector3d a = piece.state.positions.col(edge[edge.size() / 3]);
    const Eigen::Vector3d b = piece.state.positions.col(edge[edge.size() / 2]);
    const Eigen::Vector3d c = piece.state.positions.col(edge[edge.size() - 1 - edge.size() / 3]);
    const double half = 0.5 * (c - a).norm();
    return (a.y() + c.y() - 2 * b.y()) / (half * half);
}

} // namespace flangewright::support
