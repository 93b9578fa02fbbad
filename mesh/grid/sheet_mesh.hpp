// The flat blank as four-node elements, with the edges and lines the job speaks of.
#pragma once

#include <Eigen/Core>

#include <array>
#include <cstddef>
#include <vector>

namespace flangewright::grid {

/// Nodes round an opening, or along the part of the edge that a notch or a tab's side makes.
struct Rim {
    enum class Kind { hole, notch, tab_side };
    Kind kind = Kind::hole;
    std::size_t number = 0; ///< of the hole, notch or tab in the blank's list, from 0
    std::vector<int> nodes; ///< in order; of a hole all round, the first not repeated
};

/// Nodes and elements of a flat blank. All node numbers start at 0.
/// The blank is mapped: station lines have a node on every row, web edge to free edge. Without
/// openings all have as many. A hole's neighbourhood is not mapped: lines leave out their nodes
/// there; lines that would end on a notch are left out; those of a tab are longer.
struct SheetMesh {
    Eigen::Matrix3Xd positions; ///< 3 x n_nodes, mm, flat (z = 0)
    std::vector<std::array<int, 4>> quads; ///< counter-clockwise seen from +z (outer face)
    Eigen::VectorXd station; ///< per node: along the bend line, mm
    Eigen::VectorXd distance; ///< per node: past the bend tangent, mm; web negative
    std::vector<std::vector<int>> station_lines; ///< per station, nodes from web edge to free edge
    std::vector<int> web_edge; ///< nodes by growing station
    std::vector<int> free_edge; ///< nodes by growing station, the last of each station line
    std::vector<std::size_t> edge_breaks; ///< places of the free edge whose next node is no
                                          ///< neighbour: a rim goes on there
    std::vector<Rim> rims; ///< holes, notches, sides of tabs
    std::vector<int> bend_begin; ///< web-side bend tangent (distance 0), one per station line
    std::vector<int> bend_end; ///< flange-side bend tangent, one per station line
    std::vector<int> start_end; ///< nodes at station 0, web edge to free edge
    std::vector<int> far_end; ///< nodes at the last station, web edge to free edge

    [[nodiscard]] int n_nodes() const { return static_cast<int>(positions.cols()); }
    [[nodiscard]] int n_elements() const { return static_cast<int>(quads.size()); }
};

} // namespace flangewright::grid
