// The return lip on the sheet for the build log.
#pragma once

#include "io/tables/run_facts.hpp"
#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::sheet_page {

/// Angle, depth and stretch of the lip on the block and released, beside the hand calculation;
/// empty without a bent lip. Units: mm or inch as in the facts. Source: design words. Fails: never.
[[nodiscard]] std::string
lip_part(const tables::RunFacts& facts, const job::Job& job, const process::JobResult& result);

} // namespace flangewright::sheet_page
