// How a command refuses: one line on the terminal and the exit code.
#pragma once

#include "io/command_line/terminal.hpp"
#include "io/key_file/input_problem.hpp"
#include "mesh/base/result.hpp"

#include <string>

namespace flangewright::command_line {

/// Writes the problem's line. Returns the exit code of bad input, or of trouble outside.
[[nodiscard]] int refuse(const key_file::InputProblem& problem, Terminal& terminal);
[[nodiscard]] int refuse(const OutsideProblem& problem, Terminal& terminal);

/// A problem of what stands on the command line itself.
[[nodiscard]] key_file::InputProblem
option_problem(std::string option, std::string found, std::string allowed, std::string remedy);

} // namespace flangewright::command_line
