// The share of each limit on a thin slice, and what a change there says of the whole part.
#pragma once

#include "mesh/base/child_processes.hpp"
#include "solver/process/job_result.hpp"

namespace flangewright::process {

/// Word and share of a verdict.
struct ShareWord {
    findings::VerdictWord word = findings::VerdictWord::unknown;
    double share = 0; ///< of the limit that gives the word; 0 when none is known

    /// Whether a reader is better off with this one: a better word, or the same with a share lower
    /// by a point at least. Units: none. Source: own choice. Fails: never.
    [[nodiscard]] bool is_better_than(const ShareWord& other) const;
};

/// One limit in such an answer.
struct LimitAnswer {
    double share = -1; ///< below zero: not known, or no such place
    bool is_needed = false;
    material::DataGrade grade = material::DataGrade::unknown;
    std::string place = {}; ///< as the verdict calls it
};

/// Of a whole verdict. Units: none. Source: none needed. Fails: never.
[[nodiscard]] ShareWord word_and_share(const findings::Verdict& verdict);

/// Solves a slice with a quick mesh on one thread and answers three numbers for each limit of
/// `as_run`, in its order: share (-1: not known, or no such place), whether it is needed, grade.
/// Units: none. Source: none needed. Fails: nothing when a step finds no equilibrium.
[[nodiscard]] Numbers shares_on_slice(const job::Job& slice, const findings::Verdict& as_run);

/// The flange angle after the last step off the block, mean away from free ends; nothing when the
/// part is never let go. Units: rad. Source: docs/theory-findings.md, "Flange angle". Fails: as
/// said.
[[nodiscard]] std::optional<double> loose_angle(const JobResult& run);

/// The same solve of a slice, or of a whole part: that angle (NaN without one), then the numbers of
/// shares_on_slice(). Units: rad, none. Source: none needed. Fails: as shares_on_slice().
[[nodiscard]] Numbers angle_and_shares(const job::Job& slice, const findings::Verdict& as_run);

/// The share of one limit in such an answer; 0 when not known. Units: none. Source: none needed.
/// Fails: never for a limit of that verdict.
[[nodiscard]] double share_in(const std::vector<double>& answer, std::size_t limit);

/// What the whole part is expected to use of each limit with a change that took the slice's
/// shares from `as_is` to `changed`: the share as run times the ratio of the slice's two; a limit
/// that the slice does not reach stays as run. Units: none. Source: derived here (docs/theory.md,
/// "What would help"). Fails: never for answers of shares_on_slice().
[[nodiscard]] std::vector<LimitAnswer> expected_limits(
    const findings::Verdict& as_run,
    const std::vector<double>& as_is,
    const std::vector<double>& changed
);

/// The whole part's verdict with a change that took the slice's shares from `as_is` to `changed`:
/// each limit's share as run times the ratio of the slice's two, judged by the rules of the
/// verdict. A limit that the slice does not reach stays as run. Units: none. Source: derived here
/// (docs/theory.md, "What would help"). Fails: never for answers of shares_on_slice().
[[nodiscard]] ShareWord expected_with(
    const findings::Verdict& as_run,
    double close_share,
    const std::vector<double>& as_is,
    const std::vector<double>& changed
);

} // namespace flangewright::process
