// Which key of the case a search changes, and whether the case goes with that.
#pragma once

#include "io/command_line/solve_for_question.hpp"

namespace flangewright::command_line {

/// Sets the question's key and the value the case has. Gives what is wrong in the case for this
/// question: nothing when all is well.
[[nodiscard]] std::vector<key_file::InputProblem> choose_key(Question& question);

} // namespace flangewright::command_line
