// The run's figures for other programs: summary.json, versioned, keys kept stable.
#pragma once

#include "io/tables/run_facts.hpp"
#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::tables {

/// Raised when a key changes its meaning or goes; not when one is added.
inline constexpr int summary_schema = 1;

/// The text of summary.json; docs/outputs.md describes every key. What is not a finite number is
/// written as null. Units: as each key's ending says. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string
summary_json(const RunFacts& facts, const job::Job& job, const process::JobResult& result);

} // namespace flangewright::tables
