// The step from which a run is done anew, as the user names it.
#pragma once

#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"
#include "solver/job/job.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace flangewright::command_line {

/// How many steps come before the one named by its word ("return-bend") or its number, counted from
/// 1. Units: none. Source: none needed. Fails: for a word that is no step or several of the job, a
/// number that is none of them, and a step the saved state, with `n_finished` steps, has not come
/// to.
[[nodiscard]] Result<std::size_t, key_file::InputProblem> steps_before(
    const std::string& step, const std::vector<job::StepKind>& steps, std::size_t n_finished
);

} // namespace flangewright::command_line
