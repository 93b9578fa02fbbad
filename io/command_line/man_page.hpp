// The manual page, from the program's own commands and options.
#pragma once

#include "io/command_line/command_tree.hpp"

#include <string>

namespace flangewright::command_line {

/// The hidden request that prints it.
inline constexpr const char* man_page_request = "--man-page";

/// Text for `man`, section 1. Units: none. Source: the man(7) macros of groff, from memory.
[[nodiscard]] std::string man_page(const CommandWords& program, const std::string& version);

} // namespace flangewright::command_line
