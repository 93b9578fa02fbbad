// The program's commands, each in a file of its own.
#pragma once

namespace flangewright::command_line {

/// What the program answers to the shell.
enum ExitCode : int {
    done = 0,
    bad_input = 2,
    no_equilibrium = 3,
    outside_trouble = 4,
    no_answer = 5, ///< what was looked for is not within the bounds
    internal_error = 70,
    interrupted = 130,
};

/// Does what the arguments ask. Units: none. Source: none needed.
/// Fails: never but by InternalError; trouble is told on the terminal and in the exit code.
[[nodiscard]] int run(int argc, char** argv);

} // namespace flangewright::command_line
