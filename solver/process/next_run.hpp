// Where a search makes its next whole run, or why it ends.
#pragma once

#include "mesh/base/sign_change.hpp"
#include "solver/process/whole_runs.hpp"

namespace flangewright::process {

/// A value for the next whole run; without one `why` says how the search has ended.
struct NextRun {
    std::optional<double> value;
    SearchEnd why = SearchEnd::not_near;
};

/// What the next run is chosen from.
struct NextRunFacts {
    const ValueSearch& search;
    const WholeRuns& runs;
    const std::function<double(double)>& rounded;
    bool has_trials = false;
};

/// Stretch that the trials are asked for a change in: between runs on both sides, else what the
/// runs leave of the bounds. Units: those of the search. Source: none needed. Fails: never.
[[nodiscard]] std::pair<double, double> stretch_to_look_in(const WholeRuns& runs);

/// `change` as the trials found it in that stretch; nothing without trials. Units: those of the
/// search. Source: derived here (docs/theory-findings.md, "Solve for"). Fails: never.
[[nodiscard]] NextRun next_run(const NextRunFacts& facts, const std::optional<SignChange>& change);

} // namespace flangewright::process
