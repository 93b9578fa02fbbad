// The parts of the page with the verdict and the figures, computed and by hand.
#pragma once

#include "io/tables/run_facts.hpp"
#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::sheet_page {

/// The verdict word, why, and how far its data can be trusted. Units: shares in -.
/// Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string verdict_part(const process::JobResult& result);

/// Each limit that was looked at, with its source. Units: %. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string limits_part(const job::Job& job, const findings::Verdict& verdict);

/// Held, released and by hand side by side; sentences where computed and by hand differ by more
/// than a third. Units: the user's own and mm. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string
numbers_part(const tables::RunFacts& facts, const job::Job& job, const process::JobResult& result);

/// What each thing that varies does to the figures; nothing when scatter was not asked for.
/// Units: the user's own and mm. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string
scatter_part(const tables::RunFacts& facts, const process::JobResult& result);

/// Lengths for laying out the blank and cutting the block, by hand calculation.
/// Units: the user's own and mm. Source: docs/outputs.md. Fails: never.
[[nodiscard]] std::string
layout_part(const tables::RunFacts& facts, const findings::HandCalculation& hand);

} // namespace flangewright::sheet_page
