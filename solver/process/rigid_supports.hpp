// Just enough supports to stop a free part from drifting.
#pragma once

#include "solver/process/workpiece.hpp"

namespace flangewright::process {

/// Adds supports to `is_fixed` until no rigid motion is left: heights of the three web nodes that
/// span the widest triangle first, then movements in the web plane at the same nodes.
/// Shape: 5 per node. Source: derived here (docs/theory.md, "Release"). Fails: never.
void add_rigid_supports(const Workpiece& piece, std::vector<bool>& is_fixed);

} // namespace flangewright::process
