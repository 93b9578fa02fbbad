// What the shell may offer for the word that is being written.
#pragma once

#include "io/command_line/command_tree.hpp"

#include <string>
#include <vector>

namespace flangewright::command_line {

/// First word of the hidden request: `flangewright --complete WORDS... BEGUN`.
inline constexpr const char* completion_request = "--complete";

/// One offer a line. A line with a colon in front asks the shell for names of its own:
/// ":folders", ":files", ":files toml". The last of the words is the one begun, perhaps empty; the
/// others stand before it. Whether an offer fits the letters begun is left to the shell.
[[nodiscard]] std::string
completions(const CommandWords& program, const std::vector<std::string>& words);

} // namespace flangewright::command_line
