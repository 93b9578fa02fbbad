// Block, backing and drive go; the part is held on three points only and springs back.
#pragma once

#include "mesh/base/progress.hpp"
#include "solver/process/job_result.hpp"
#include "solver/process/step_keeping.hpp"
#include "solver/process/workpiece.hpp"

namespace flangewright::process {

/// How the part is held while it springs back.
struct ReleaseChoice {
    bool holds_web_edge = false; ///< the whole web edge stays clamped, as in the solid reference
    double spring_factor = 1e-4; ///< of the steadying springs, over E / t
    double largest_step = 0.2; ///< share of the tools' forces taken away at once
};

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
