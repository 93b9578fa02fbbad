// A drive in passes or worked along the line: each pass, the edge on the way, the even drive
// beside.
#pragma once

#include "io/tables/run_facts.hpp"
#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::sheet_page {

/// Nothing for one even pass. Units: the user's own and mm. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string
passes_part(const tables::RunFacts& facts, const job::Job& job, const process::JobResult& result);

} // namespace flangewright::sheet_page
