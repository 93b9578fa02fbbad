// Runs a job from blank to findings.
#pragma once

#include "mesh/base/progress.hpp"
#include "mesh/base/result.hpp"
#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

namespace flangewright::process {

/// How to run, beside the job itself.
struct RunOptions {
    int n_threads = 0; ///< 0: all cores
    int n_frames = 24; ///< shapes kept for the animation
    bool measure_bare_refactor = true;
};

/// Meshes, bends, releases, judges. A step that can't reach equilibrium or is stopped ends the run
/// with what was reached kept. Units: mm, N, MPa, rad. Source: docs/theory.md.
/// Fails: when the mesh library refuses.
[[nodiscard]] Result<JobResult>
run_job(const job::Job& job, const RunOptions& options, const Monitor& monitor);

} // namespace flangewright::process
