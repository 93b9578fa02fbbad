// Predicted against measured: on a run's page to be filled in by hand, later filled in by `log`.
#pragma once

#include "io/tables/run_facts.hpp"
#include "solver/process/job_result.hpp"

#include <string>
#include <vector>

namespace flangewright::sheet_page {

/// One figure. Texts as they are shown, not yet safe.
struct MeasuredRow {
    std::string step; ///< "1 bend-down"; shown where it changes
    std::string what; ///< "flange angle, mean"
    std::string predicted;
    std::string measured = {}; ///< empty: a blank cell
    std::string difference = {}; ///< predicted less measured
};

/// What is to be measured after each step, with what was predicted and blank cells. Units: the
/// user's own, with mm beside. Source: docs/build-log.md. Fails: never.
[[nodiscard]] std::vector<MeasuredRow>
rows_to_fill(const tables::RunFacts& facts, const process::JobResult& result);

/// The section between two marks by which `with_measured()` finds it again. Units, source: as the
/// rows. Fails: never.
[[nodiscard]] std::string
measured_part(const std::vector<MeasuredRow>& rows, const std::vector<std::string>& notes);

/// A page whose section is replaced by another; empty when the page has no such section. Units:
/// none. Source: none needed. Fails: never.
[[nodiscard]] std::string with_measured(const std::string& page, const std::string& part);

} // namespace flangewright::sheet_page
