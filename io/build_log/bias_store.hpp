// Adds a part to the user's own notes without losing what another program adds meanwhile.
#pragma once

#include "io/build_log/bias_file.hpp"

#include <variant>

namespace flangewright::build_log {

/// Why nothing was added: the file holds something else, or the disk refuses.
using BiasProblem = std::variant<key_file::InputProblem, OutsideProblem>;

/// Adds rows as bias_text() does; the file is whole at any time, and its folder is made where it is
/// missing. Who comes at the same time waits. Units: as the rows. Source: rename(2), flock(2).
/// Fails: with what is wrong; the file is then as it was.
[[nodiscard]] Result<std::filesystem::path, BiasProblem>
store_bias(const std::filesystem::path& path, const std::vector<BiasRow>& added);

} // namespace flangewright::build_log
