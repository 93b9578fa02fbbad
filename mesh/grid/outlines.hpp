// The border of a blank as lines of nodes.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"

#include <vector>

namespace flangewright::grid {

/// The free edge in pieces whose nodes are neighbours: one, unless notches or tabs interrupt it.
/// Places run through `free_edge`. Source: none needed. Fails: never.
[[nodiscard]] std::vector<std::vector<int>> edge_runs(const SheetMesh& mesh);

/// Nodes of a rim; round a hole the first comes again at the end. Source: none needed. Fails:
/// never.
[[nodiscard]] std::vector<int> rim_line(const Rim& rim);

/// The whole border: web edge, ends, free edge, rims. Source: none needed. Fails: never.
[[nodiscard]] std::vector<std::vector<int>> outlines(const SheetMesh& mesh);

} // namespace flangewright::grid
