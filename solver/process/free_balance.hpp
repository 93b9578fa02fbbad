// A part that nothing but three points holds any more finds its balance.
#pragma once

#include "mesh/base/progress.hpp"
#include "solver/process/job_result.hpp"
#include "solver/process/step_keeping.hpp"
#include "solver/process/workpiece.hpp"

namespace flangewright::process {

/// How the part is held, and how gently it is let go.
struct FreeBalanceChoice {
    bool holds_web_edge = false; ///< the whole web edge stays clamped, as in the solid reference
    double spring_factor = 1e-4; ///< of the steadying springs, over E / t
    double largest_step = 0.2; ///< share of the holding forces taken away at once
};

/// Fades the forces that hold the part where it is (`piece.held_by`) to zero; what holds it besides
/// is just enough to stop it drifting. Reports progress under the name of `kind`.
/// Units: mm, N. Source: docs/theory.md, "Release". Fails: see the report.
[[nodiscard]] StepReport balance_free(
    Workpiece& piece,
    job::StepKind kind,
    const FreeBalanceChoice& choice,
    const Monitor& monitor,
    const StepKeeping& keeping
);

/// Makes `piece.held_by` the forces and moments that would hold the part in its present shape.
/// Units: mm, N. Source: derived here (docs/theory.md, "Trim, anneal"). Fails: never.
void hold_present_shape(Workpiece& piece);

} // namespace flangewright::process
