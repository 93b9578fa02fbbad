// All cut edges of a part after a step, node by node: the free edge, then rims of openings.
#pragma once

#include "solver/process/job_result.hpp"

#include <string>
#include <vector>

namespace flangewright::tables {

/// One node of a cut edge. mm, log strain along the edge.
struct CutEdgeNode {
    int node = 0;
    double station = 0;
    double strain = 0;
    double thickness = 0; ///< not a number where a step cut short lacks it
    std::string edge; ///< "free edge", "hole 1", "notch 2", "tab 1"
};

/// Nodes, and which of them (by place) follow each other.
struct CutEdge {
    std::vector<CutEdgeNode> nodes;
    std::vector<std::vector<int>> lines;
};

/// Units: mm. Source: findings (edge_strain.hpp). Fails: never.
[[nodiscard]] CutEdge cut_edge(const process::JobResult& result, std::size_t index);

} // namespace flangewright::tables
