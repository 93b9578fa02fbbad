// flangewright materials [NAME]: the sheets known by name, with where each value comes from, and
// the curves of one as a picture.
#pragma once

#include "io/command_line/arguments.hpp"
#include "io/command_line/terminal.hpp"

namespace flangewright::command_line {

/// Returns the exit code.
[[nodiscard]] int show_materials(const MaterialsArguments& arguments, Terminal& terminal);

} // namespace flangewright::command_line
