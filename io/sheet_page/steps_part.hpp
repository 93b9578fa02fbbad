// What the steps after the release did to the part, and notes on heat treatment.
#pragma once

#include "io/tables/run_facts.hpp"
#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::sheet_page {

/// A table over the steps from the release on; empty when none follows it. Units: the user's.
/// Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string
steps_part(const tables::RunFacts& facts, const job::Job& job, const process::JobResult& result);

/// Soak, quench and working window for the sheet, each with its standing; empty for a job that
/// neither anneals nor heat treats. Units: as the trade's tables have them. Source: the rows name
/// theirs. Fails: never.
[[nodiscard]] std::string heat_part(const job::Job& job);

} // namespace flangewright::sheet_page
