// flangewright log CASE: what was measured beside what was predicted.
#pragma once

#include "io/build_log/bias_file.hpp"
#include "io/command_line/arguments.hpp"
#include "io/command_line/terminal.hpp"

namespace flangewright::command_line {

/// What the command takes from around it.
struct LogSurroundings {
    std::string date; ///< today, "2026-11-26"
    std::optional<std::filesystem::path> bias_file; ///< the user's own notes; empty: no home
};

/// Writes the table to fill in; or reads it, sets it beside the results of the run that is there,
/// writes log.html into their folder and keeps the mean differences in the user's notes. Returns
/// the exit code.
[[nodiscard]] int
log_part(const LogArguments& arguments, const LogSurroundings& around, Terminal& terminal);

} // namespace flangewright::command_line
