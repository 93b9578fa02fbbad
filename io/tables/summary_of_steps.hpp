// The summary's part on each step: how it went and what the part is like after it.
#pragma once

#include "io/tables/json_figures.hpp"
#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::tables {

/// "done", "no equilibrium", "stopped by the user". Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string word_for_reason(process::StopReason reason);

/// One entry per step. Units: in the keys' names. Source: docs/outputs.md. Fails: never.
[[nodiscard]] Json steps_json(const job::Job& job, const process::JobResult& result);

} // namespace flangewright::tables
