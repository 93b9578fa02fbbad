// The part of the page that says how likely the part is to split.
#pragma once

#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::sheet_page {

/// How likely the part is to split; nothing without scatter.
/// Units: the user's own, %. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string chance_part(const process::JobResult& result);

} // namespace flangewright::sheet_page
