// The flat blank as four-node elements, with the edges and lines the job speaks of.
#pragma once

#include <Eigen/Core>

#include <array>
#include <vector>

namespace flangewright::grid {

/// Nodes and elements of a flat blank. All node numbers start at 0.
/// The blank is mapped: every station line has the same number of nodes, web edge to free edge.
struct SheetMesh {
    Eigen::Matrix3Xd positions; ///< 3 x n_nodes, mm, flat (z = 0)
    std::vector<std::array<int, 4>> quads; ///< counter-clockwise seen from +z (outer face)
    Eigen::VectorXd station; ///< per node: along the bend line, mm
    Eigen::VectorXd distance; ///< per node: past the bend tangent, mm; web negative
    std::vector<std::vector<int>> station_lines; ///< per station, nodes from web edge to free edge
    std::vector<int> web_edge; ///< nodes by growing station
    std::vector<int> free_edge; ///< nodes by growing station
    std::vector<int> bend_begin; ///< web-side bend tangent (distance 0), growing station
    std::vector<int> bend_end; ///< flange-side bend tangent, growing station
    std::vector<int> start_end; ///< nodes at station 0, web edge to free edge
    std::vector<int> far_end; ///< nodes at the last station, web edge to free edge

    [[nodiscard]] int n_nodes() const { return static_cast<int>(positions.cols()); }
    [[nodiscard]] int n_elements() const { return static_cast<int>(quads.size()); }
};

} // namespace flangewright::grid
