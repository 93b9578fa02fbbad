// Follows the strain path of every node through the steps of a run and looks for necks.
#pragma once

#include "solver/process/job_result.hpp"

namespace flangewright::process {

/// Fills in `neck_shares` and the neck among the findings of each step. The paths run through the
/// shapes kept in the history and the ends of the steps; a share never falls until the sheet is
/// made soft, which begins it anew. Units: mm. Source: none needed. Fails: leaves out what has no
/// hardening curve.
void look_for_necks(const job::Job& job, int n_threads, JobResult& result);

} // namespace flangewright::process
