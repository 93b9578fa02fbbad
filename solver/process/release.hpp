// Block, backing and drive go; the part is held on three points only and springs back.
#pragma once

#include "solver/process/free_balance.hpp"

namespace flangewright::process {

/// How the part is held while it springs back.
using ReleaseChoice = FreeBalanceChoice;

/// Replaces tools and clamp by the forces they exert and fades these to zero; what holds the part
/// is just enough to stop it drifting. Units: mm, N. Source: docs/theory.md, "Release". Fails: see
/// the report.
[[nodiscard]] StepReport release(
    Workpiece& piece,
    const ReleaseChoice& choice,
    const Monitor& monitor,
    const StepKeeping& keeping = {}
);

} // namespace flangewright::process
