// The part of the page that says what would help a part that may split.
#pragma once

#include "io/tables/run_facts.hpp"
#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::sheet_page {

/// What would help a part that may split; nothing where that was not looked for.
/// Units: the user's own, %. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string
remedies_part(const tables::RunFacts& facts, const process::JobResult& result);

} // namespace flangewright::sheet_page
