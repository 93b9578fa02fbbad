// The summary's part on splitting: the verdict, how likely a split is, what would help.
#pragma once

#include "io/tables/json_figures.hpp"
#include "solver/process/job_result.hpp"

namespace flangewright::tables {

// All: Units: in the keys' names. Source: docs/outputs.md. Fails: never.

[[nodiscard]] Json verdict_json(const findings::Verdict& verdict);
/// Null without scatter.
[[nodiscard]] Json chance_json(const process::JobResult& result);
/// Null where the verdict is `holds`, or it was not looked for.
[[nodiscard]] Json remedies_json(const process::JobResult& result);
/// Null without a bent lip.
[[nodiscard]] Json lip_advice_json(const job::Job& job, const process::JobResult& result);

} // namespace flangewright::tables
