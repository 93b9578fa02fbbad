// The blank with its edge cut back to a row of nodes.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"

#include <vector>

namespace flangewright::grid {

/// What is left, and which nodes and elements of the whole mesh that is, in its new numbering.
struct TrimmedMesh {
    SheetMesh mesh;
    std::vector<int> kept_nodes;
    std::vector<int> kept_quads;
};

/// Cuts away all that lies beyond the row of nodes nearest to `distance` at the first station,
/// past the bend tangent in the flat; the row becomes the free edge. Units: mm. Source: none
/// needed. Fails: never; a row within the bend, or notches and tabs, are faults of the caller.
/// Holes must lie on one side of the row.
[[nodiscard]] TrimmedMesh trim_beyond(const SheetMesh& mesh, double distance);

} // namespace flangewright::grid
