// Unmapped elements between the border of a window and the openings inside it.
#pragma once

#include "mesh/base/result.hpp"
#include "mesh/grid/blank_mesher.hpp"
#include "mesh/grid/opening_sides.hpp"
#include "mesh/grid/opening_windows.hpp"
#include "mesh/grid/sheet_mesh.hpp"

#include <array>
#include <vector>

namespace flangewright::grid {

/// Elements that fill a window. Node numbers below the mapped mesh's count are its own, the rest
/// are `positions` in order.
struct OpenedRegion {
    std::vector<Eigen::Vector3d> positions;
    std::vector<std::array<int, 4>> quads; ///< counter-clockwise seen from +z
    std::vector<Rim> rims;
};

/// Units: mm. Source: gmsh_session.hpp. Fails: when the library refuses, or leaves an element that
/// is not convex, with the opening's place in `object`.
[[nodiscard]] Result<OpenedRegion> fill_window(
    const SheetMesh& mapped, const BlankGrid& blank, const Window& window, const WindowPlace& place
);

} // namespace flangewright::grid
