// How the flange's edge was finished, in the words of the sheet and of the summary.
#pragma once

#include "solver/findings/findings.hpp"
#include "solver/job/job.hpp"

#include <string>

namespace flangewright::tables {

/// "filed", as case files have it; "not stated". Units: none. Source: design words. Fails: never.
[[nodiscard]] std::string word_for(std::optional<material::EdgeFinish> finish);

/// "sawn as cut, filed after the trim": the trimmed edge only where a step trims. Units: none.
/// Source: none needed. Fails: never.
[[nodiscard]] std::string edge_words(const job::Job& job);

/// What the finish does to the limit, a plain sentence or two. Units: none. Source:
/// solver/findings/edge_limit. Fails: never.
[[nodiscard]] std::string edge_limit_words(const job::Job& job);

/// What the free edge as cut bears and how that is known: "14.0 %, a filed edge (coupon: coupon,
/// lot 7, 2026-11-26)"; "not known". Units: per cent. Source: solver/findings/edge_limit. Fails:
/// never.
[[nodiscard]] std::string sourced_edge_limit(const job::Job& job);

/// A sentence for each allowed figure of a cut edge the verdict used, with grade and source; empty
/// without any. Units, source, fails: as above.
[[nodiscard]] std::string edge_source_words(const findings::Verdict& verdict);

} // namespace flangewright::tables
