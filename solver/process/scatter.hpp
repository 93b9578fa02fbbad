// How much the figures move when sheet and tools differ from what the case says.
#pragma once

#include "mesh/base/progress.hpp"
#include "solver/process/job_result.hpp"

#include <optional>

namespace flangewright::process {

/// Solves the job on a quick mesh as it is and once more for each thing that varies, moved by its
/// band, in processes of their own, `n_at_once` of them at a time. Each figure's total is the root
/// of the sum of squares: the things vary independently. What is reached at each limit of `verdict`
/// is told where anything is. Units: mm, rad, -. Source: first-order
/// propagation of error, textbook (docs/theory.md, "Scatter"). Fails: nothing when one of the jobs
/// finds no equilibrium or the work is stopped.
[[nodiscard]] std::optional<ScatterBand> estimate_scatter(
    const job::Job& job,
    int n_at_once,
    const Monitor& monitor,
    const findings::Verdict& verdict = {}
);

} // namespace flangewright::process
