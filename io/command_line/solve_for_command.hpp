// flangewright solve-for WHAT CASE: from what is wanted back to what to cut.
#pragma once

#include "io/command_line/arguments.hpp"
#include "io/command_line/run_command.hpp"
#include "io/command_line/terminal.hpp"
#include "mesh/base/child_processes.hpp"

#include <functional>

namespace flangewright::command_line {

/// The long works, replaceable so that tests of everything around them are quick.
struct SolveForWorkshop {
    Workshop whole;
    std::function<Numbers(const job::Job&, const findings::Verdict&)> quick;
};

/// Returns the exit code.
[[nodiscard]] int
solve_for(const SolveForArguments& arguments, Terminal& terminal, const SolveForWorkshop& workshop);

} // namespace flangewright::command_line
