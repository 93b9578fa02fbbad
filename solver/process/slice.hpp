// A thin slice of the part that stands for all of it where a whole solve would cost too much.
#pragma once

#include "solver/process/job_result.hpp"

#include <span>

namespace flangewright::process {

/// One element's length of the job's line, going on at both ends and driven evenly, without
/// openings: of a line of several curvatures where the edge strained most in these steps, of widths
/// and wall angles that vary the largest. A rolled sheet lies as it does to the line there, in the
/// middle of the part without steps. Units: mm. Source: docs/theory.md, "Error of the mesh".
/// Fails: never; the mesh must be the job's.
[[nodiscard]] job::Job
slice_of(const job::Job& job, const grid::SheetMesh& mesh, std::span<const StepResult> steps);

} // namespace flangewright::process
