// The head of the page of record: which part, of which sheet, by whom.
#pragma once

#include "io/tables/run_facts.hpp"
#include "solver/job/job.hpp"

#include <string>

namespace flangewright::sheet_page {

/// Drawing, part, lot, certificate, how the blank was laid and cut, who and when: filled in as far
/// as the case says, else blank lines for the pen. Units: none. Source: docs/case-file.md, [log].
/// Fails: never.
[[nodiscard]] std::string record_part(const tables::RunFacts& facts, const job::Job& job);

/// Blank lines for what heat treatment was given; empty for a job without one. Units: none. Source:
/// common practice, no source. Fails: never.
[[nodiscard]] std::string heat_record_part(const job::Job& job);

} // namespace flangewright::sheet_page
