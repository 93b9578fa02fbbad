// What is noted of one step: how the part stood before it, and what it left.
#pragma once

#include "solver/process/job_result.hpp"
#include "solver/process/workpiece.hpp"

namespace flangewright::process {

/// Whether the step drives the sheet over a block. Units: none. Source: none needed. Fails: never.
[[nodiscard]] bool bends(job::StepKind kind);

/// Does what comes before the step's balance, and notes the angle then. `result`: the steps so far.
/// Units: rad. Source: none needed. Fails: never.
[[nodiscard]] StepResult begin_step(Workpiece& piece, job::StepKind kind, const JobResult& result);

/// Adds the step to the result: the piece as it stands now and what is found in it. Units: mm, rad.
/// Source: docs/theory-findings.md. Fails: never.
void record_step(const Workpiece& piece, StepResult step, JobResult& result);

} // namespace flangewright::process
