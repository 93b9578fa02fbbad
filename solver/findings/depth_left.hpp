// How much deeper a flange may be and still hold, told from one run without another.
#pragma once

#include "solver/findings/findings.hpp"
#include "solver/job/job.hpp"

#include <optional>
#include <span>

namespace flangewright::findings {

/// Depth from the job's to the deepest that still holds, by the limits that a deeper flange uses up
/// (free edge, sheet away from edges and bends, thickness): each share as run grows with the edge's
/// stretch by hand. Of a table of depths: of its largest. Negative: so much too deep. Units: mm.
/// Source: derived here (docs/theory-findings.md, "Depth left"). Fails: nothing where the edge is
/// not stretched by hand, or a share that is needed is not known.
[[nodiscard]] std::optional<double>
depth_left(const job::Job& job, std::span<const LimitUse> limits);

} // namespace flangewright::findings
