// How much deeper a flange may be and still hold, told from one run without another.
#pragma once

#include "solver/findings/findings.hpp"
#include "solver/job/job.hpp"

#include <optional>
#include <span>

namespace flangewright::findings {

/// Share up to which a verdict on data of this grade holds: `close_share`, half of a limit whose
/// data are neither from a coupon nor published. Units: none. Source: as the verdict. Fails: never.
[[nodiscard]] double share_that_holds(material::DataGrade grade, double close_share);

/// Depth from the job's to the deepest that still holds, by the limits that a deeper flange uses up
/// (free edge, sheet away from edges and bends, thickness): each share as run grows with the edge's
/// stretch by hand. Of a table of depths: of its largest. Negative: so much too deep. Units: mm.
/// Source: derived here (docs/theory-findings.md, "Depth left"). Fails: nothing where the edge is
/// not stretched by hand, or a share that is needed is not known.
[[nodiscard]] std::optional<double>
depth_left(const job::Job& job, std::span<const LimitUse> limits);

} // namespace flangewright::findings
