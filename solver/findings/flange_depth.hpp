// The depth of the formed flange as the drawing gives it.
#pragma once

#include "solver/findings/flange_angle.hpp"

namespace flangewright::findings {

/// Distance along the flange from the mould point (outer face of the web meets outer face of the
/// flange, both taken straight on) to the free edge at mid-thickness. `bend_tangent` is the node of
/// the station where the web ends, `edge` its free-edge node. A flange turned through less than a
/// degree has no mould point: the distance from the bend tangent is given.
/// Units: mm. Source: design definition (docs/theory-findings.md, "Flange depth"). Fails: never.
[[nodiscard]] double flange_depth(
    const PartShape& shape,
    const Section& section,
    const FlangeLine& line,
    int bend_tangent,
    int edge
);

} // namespace flangewright::findings
