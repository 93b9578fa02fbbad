// What would help a part that is close to splitting or splits.
#pragma once

#include "mesh/base/progress.hpp"
#include "solver/process/job_result.hpp"

namespace flangewright::process {

/// Tries changes to the job, each solved anew on a thin slice with a quick mesh in a process of its
/// own, `n_at_once` at a time: a less deep flange, a larger nose, a larger plan radius, an anneal
/// before the return bend, a rolled sheet turned by 90 deg, softer tempers of the same alloy that
/// the job names. Depth, nose and temper keep to the smallest
/// change tried that brings the verdict to `holds`; else the best is told. With a change each
/// limit's share is the run's times (slice with the change / slice as it is). A better finished
/// edge needs no solve. Each is judged by the rules of findings::judge(); what helps is ranked.
/// Where the slice's share is far from the run's (Remedies::is_slice_like_part()) only the edge is
/// looked at. Only for a run whose verdict is `close` or `splits`. Units: mm, rad, -. Source:
/// docs/theory.md, "What would help". Fails: nothing when the slice as it is finds no equilibrium,
/// or the work is stopped; a change that finds none is counted and left out.
[[nodiscard]] std::optional<Remedies>
find_remedies(const job::Job& job, const JobResult& run, int n_at_once, const Monitor& monitor);

} // namespace flangewright::process
