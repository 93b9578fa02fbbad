// Where the computed part and the hand calculation tell different stories.
#pragma once

#include "solver/findings/findings.hpp"
#include "solver/job/job.hpp"

#include <span>
#include <vector>

namespace flangewright::findings {

/// Figures whose computed value differs from the hand calculation by more than a third of the
/// latter, each with a sentence on the likely reasons: edge stretch and bend strain (largest over
/// all steps), springback (last released step, middle stations). Differences too small to matter on
/// the bench are passed over: 0.5 % of strain, 0.25 deg.
/// Units: strains in - (log), angles in rad. Source: a third is the design's figure, the bench
/// limits common practice, no source. Fails: never.
[[nodiscard]] std::vector<Disagreement> find_disagreements(
    const job::Job& job, const HandCalculation& by_hand, std::span<const PartFindings> steps
);

} // namespace flangewright::findings
