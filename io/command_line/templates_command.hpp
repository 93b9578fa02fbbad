// flangewright templates CASE: the blank to cut and the blocks to make, on paper and as a drawing.
#pragma once

#include "io/command_line/arguments.hpp"
#include "io/command_line/terminal.hpp"
#include "solver/process/blank_outline.hpp"

namespace flangewright::command_line {

/// Makes the former that solves a job; replaceable, so that tests of everything around it are
/// quick.
using MakeFormer = std::function<process::Former(int n_threads, const Monitor& monitor)>;

/// Finds the outline that forms to the drawing's depth and writes the templates into a folder that
/// has none yet. Returns the exit code; `no_equilibrium` also where the outline misses by more than
/// is allowed, with the best one written.
[[nodiscard]] int write_templates(
    const TemplatesArguments& arguments, Terminal& terminal, const MakeFormer& make_former
);

} // namespace flangewright::command_line
