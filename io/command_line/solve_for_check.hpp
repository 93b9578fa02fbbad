// What the run says that an answer stands on.
#pragma once

#include "io/command_line/solve_for_question.hpp"

namespace flangewright::command_line {

/// Angle, share, word of the verdict, and what the mesh leaves open. `is_found`: it is the check
/// run of an answer, not only the nearest.
[[nodiscard]] std::string
check_words(const Question& question, const process::JobResult& run, bool is_found);

} // namespace flangewright::command_line
