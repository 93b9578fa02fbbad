// Which nodes a cut leaves.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"

#include <vector>

namespace flangewright::grid {

/// For each node of a mesh that was cut out of another its number there: the flat place of a node
/// stays. Units: mm. Source: none needed. Fails: a node that was not there is a caller's bug.
[[nodiscard]] std::vector<int> nodes_left(const SheetMesh& before, const SheetMesh& after);

} // namespace flangewright::grid
