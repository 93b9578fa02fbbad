// The page's part on holes, notches and tabs.
#pragma once

#include "io/tables/run_facts.hpp"
#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::sheet_page {

/// How far each rim stretched and what became of each hole's diameter; empty without openings.
/// Source: none needed. Fails: never.
[[nodiscard]] std::string
openings_part(const tables::RunFacts& facts, const process::JobResult& result);

} // namespace flangewright::sheet_page
