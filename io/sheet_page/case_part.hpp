// The part of the page that repeats what the user asked for.
#pragma once

#include "io/tables/run_facts.hpp"
#include "solver/job/job.hpp"

#include <string>

namespace flangewright::sheet_page {

/// Sheet, blank, block, drive as a table. Units: the user's own and mm. Source: docs/outputs.md.
/// Fails: never.
[[nodiscard]] std::string case_part(const tables::RunFacts& facts, const job::Job& job);

} // namespace flangewright::sheet_page
