// Between which values a search looks.
#pragma once

#include "io/command_line/solve_for_question.hpp"

namespace flangewright::command_line {

/// Sets the bounds of a question whose key, aim and tolerance are read: those asked for, else usual
/// ones, as far as the case allows them. Gives what is wrong with the options, added to what was
/// wrong so far.
[[nodiscard]] std::vector<key_file::InputProblem> read_bounds(
    const SolveForArguments& arguments,
    Question& question,
    std::vector<key_file::InputProblem> so_far
);

} // namespace flangewright::command_line
