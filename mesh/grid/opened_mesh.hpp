// A mapped blank with its openings cut.
#pragma once

#include "mesh/base/result.hpp"
#include "mesh/grid/blank_mesher.hpp"
#include "mesh/grid/opening_windows.hpp"
#include "mesh/grid/sheet_mesh.hpp"

namespace flangewright::grid {

/// Takes away what lies beside tabs and in windows, fills the windows, and numbers the nodes anew.
/// `mapped` lies on `lines`, with a row for each distance. Units: mm. Source: derived here
/// (docs/theory.md, "Openings"). Fails: as fill_window().
[[nodiscard]] Result<SheetMesh>
open_mesh(const SheetMesh& mapped, const BlankGrid& blank, const WindowedLines& lines);

} // namespace flangewright::grid
