// The part of the page that says how to work the edge so that the web sits flat.
#pragma once

#include "io/tables/run_facts.hpp"
#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::sheet_page {

/// What to do to the flange's edge and what it does; nothing where the web is flat enough.
/// Units: the user's own and mm. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string
cure_part(const tables::RunFacts& facts, const process::JobResult& result);

} // namespace flangewright::sheet_page
