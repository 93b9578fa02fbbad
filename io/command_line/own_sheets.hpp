// Puts the user's own sheets beside the built-in ones before a command looks any up.
#pragma once

#include "io/command_line/terminal.hpp"

#include <filesystem>
#include <optional>

namespace flangewright::command_line {

/// Takes the sheets of `folder`, or of the user's own folder when none is given, and tells of files
/// that had to be left out. Returns the exit code: bad input when the given folder is not there.
[[nodiscard]] int
use_own_sheets(const std::optional<std::filesystem::path>& folder, Terminal& terminal);

} // namespace flangewright::command_line
