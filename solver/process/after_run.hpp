// What is worked out of a run once its steps are done: the verdict, warnings, and, where asked for,
// what would help, error bars and which way to work the web.
#pragma once

#include "solver/process/run_job.hpp"
#include "solver/process/workpiece.hpp"

namespace flangewright::process {

/// Fills in all of a result that does not belong to one step. What finds no balance of forces, or
/// is stopped, is left out with a warning that says so. `job`: as it was asked; `piece`: as its
/// last step left it. Units: as in job_result.hpp. Source: docs/theory.md. Fails: never.
void work_out_the_rest(
    const job::Job& job,
    const Workpiece& piece,
    const RunOptions& options,
    const Monitor& monitor,
    JobResult& result
);

} // namespace flangewright::process
