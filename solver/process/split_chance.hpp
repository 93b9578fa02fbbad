// How likely the part is to split, from its verdict and what the scatter was found to move.
#pragma once

#include "solver/process/job_result.hpp"

namespace flangewright::process {

/// The run's own share at each limit that is needed, moved as the quick solves of the scatter were;
/// what an edge bears varies by its own band, a bend table is taken as it stands. Not given, with
/// the reason, where a needed limit is unknown or at a place the scatter's solves do not have.
/// Units: none. Source: findings::chance_of_splitting(). Fails: never.
[[nodiscard]] findings::Chance
chance_of_job(const job::Job& job, const findings::Verdict& verdict, const ScatterBand& band);

} // namespace flangewright::process
