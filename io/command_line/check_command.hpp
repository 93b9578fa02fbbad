// flangewright check CASE: is the file right, and what does the hand calculation say?
#pragma once

#include "io/command_line/arguments.hpp"
#include "io/command_line/terminal.hpp"

namespace flangewright::command_line {

/// Returns the exit code.
[[nodiscard]] int check_case(const CheckArguments& arguments, Terminal& terminal);

} // namespace flangewright::command_line
