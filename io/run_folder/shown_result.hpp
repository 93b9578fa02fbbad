// The result as all outputs show it: the released part set on the block, not held on three points.
#pragma once

#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

namespace flangewright::run_folder {

/// The released shapes (steps and frames) moved as rigid bodies onto the block's face, as the web
/// lift is measured; findings and fields stay, they don't depend on where a part lies. Held shapes
/// stay as they are. Not for going on with the run: what it left itself is.
/// Units: mm. Source: docs/outputs.md, "Coordinates". Fails: never.
[[nodiscard]] process::JobResult
shown_result(const job::Job& job, const process::JobResult& result);

} // namespace flangewright::run_folder
