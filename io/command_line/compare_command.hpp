// flangewright compare CASE --vary KEY=VALUES: variants side by side.
#pragma once

#include "io/command_line/run_command.hpp"

namespace flangewright::command_line {

/// "<folder of the case>/<name>-compare".
[[nodiscard]] std::filesystem::path default_study_folder(const std::filesystem::path& case_file);

/// Runs what has no finished run yet, each variant in a process of its own with one thread, and
/// writes the sheet; or lists the runs as lines; or only joins what other machines have run.
/// Returns the exit code.
[[nodiscard]] int
compare_variants(const CompareArguments& arguments, Terminal& terminal, const Workshop& workshop);

} // namespace flangewright::command_line
