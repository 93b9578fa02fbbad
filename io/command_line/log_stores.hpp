// What `log` keeps for later parts: mean differences in the user's notes, the edge's limit.
#pragma once

#include "io/command_line/limit_store.hpp"
#include "io/command_line/logged_part.hpp"
#include "io/command_line/terminal.hpp"

#include <optional>
#include <vector>

namespace flangewright::command_line {

/// Mean difference of each figure that was measured, as the notes keep it. Units: each figure's
/// own.
[[nodiscard]] std::vector<build_log::BiasRow> bias_rows(const LoggedPart& part);

/// Where the edge's limit goes if it is to be stored; empty: it is not, or the edge says nothing.
/// Fails: without an edge's finish, a lot, or a sheet known by name.
[[nodiscard]] Result<std::optional<LimitTarget>, key_file::InputProblem>
place_for_limit(const LoggedPart& part);

/// Adds the rows to the notes and says so. Returns the exit code.
[[nodiscard]] int
keep_bias(const LoggedPart& part, const std::vector<build_log::BiasRow>& rows, Terminal& terminal);

/// Stores the limit, if asked for, and says so. Returns the exit code.
[[nodiscard]] int
keep_limit(const LoggedPart& part, const std::optional<LimitTarget>& target, Terminal& terminal);

} // namespace flangewright::command_line
