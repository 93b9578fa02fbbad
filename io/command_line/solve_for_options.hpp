// What the options of a search say: what is wanted, and how near.
#pragma once

#include "io/command_line/solve_for_question.hpp"

namespace flangewright::command_line {

/// An angle in degrees, or a length in the case's unit, as the question's value is. Units: rad, mm.
/// Fails: when it is neither.
[[nodiscard]] Result<double, key_file::InputProblem>
asked_value(const Question& question, const std::string& option, const std::string& word);

/// Sets the aim of a question whose key is chosen. Gives what is wrong with the options, added to
/// what was wrong so far.
[[nodiscard]] std::vector<key_file::InputProblem> read_aim(
    const SolveForArguments& arguments,
    Question& question,
    std::vector<key_file::InputProblem> so_far
);

/// Sets the tolerance. Gives what is wrong with the option.
[[nodiscard]] std::vector<key_file::InputProblem>
read_tolerance(const SolveForArguments& arguments, Question& question);

} // namespace flangewright::command_line
