// Runs a job from blank to findings.
#pragma once

#include "mesh/base/progress.hpp"
#include "mesh/base/result.hpp"
#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <functional>

namespace flangewright::process {

struct RunState;

/// How to run, beside the job itself.
struct RunOptions {
    int n_threads = 0; ///< 0: all cores
    int n_frames = 24; ///< shapes kept for the animation
    bool measure_bare_refactor = true;
    bool estimates_mesh_error = false; ///< two more solves of a thin slice at the end
    bool compares_with_even = false; ///< one more bend-down at the end, of a drive not even
    bool works_out_web_cure = false; ///< which way to work the edge of a part whose web lifts
    bool works_out_remedies = false; ///< what would help a part that may split
    const RunState* begin_from = nullptr; ///< goes on from there; alive until run_job() returns
    std::function<void(const RunState&)> keep_state = {}; ///< told what it takes to go on
    double seconds_between_states = 1; ///< longer when keeping one takes more than some 3 % of it
};

/// Meshes, bends, releases, judges. A step that can't reach equilibrium or is stopped ends the run
/// with what was reached kept. A run that goes on from a state ends as it would have without the
/// break. Units: mm, N, MPa, rad. Source: docs/theory.md.
/// Fails: when the mesh library refuses, or the state to go on from does not fit the job.
[[nodiscard]] Result<JobResult>
run_job(const job::Job& job, const RunOptions& options, const Monitor& monitor);

} // namespace flangewright::process
