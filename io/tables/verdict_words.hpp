// The verdict in one line.
#pragma once

#include "solver/findings/findings.hpp"

#include <optional>
#include <string>

namespace flangewright::tables {

/// "Holds: 61 % of the limit is used", of a verdict word and the share used, if one is known.
/// Units: share in -. Source: design words. Fails: never.
[[nodiscard]] std::string
verdict_words(const std::string& word, const std::optional<double>& share_used);

} // namespace flangewright::tables
