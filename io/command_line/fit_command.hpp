// flangewright fit TEST.csv: what a tensile test says of a sheet, as text, material file, picture.
#pragma once

#include "io/command_line/arguments.hpp"
#include "io/command_line/terminal.hpp"

namespace flangewright::command_line {

/// Returns the exit code.
[[nodiscard]] int fit_test(const FitArguments& arguments, Terminal& terminal);

} // namespace flangewright::command_line
