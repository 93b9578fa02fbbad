// The flange is driven over the nose by a rigid drive whose motion is prescribed.
#pragma once

#include "solver/process/fold.hpp"

namespace flangewright::process {

/// Bends the flange down. The web is held flat under the backing, free to slide along the block;
/// its far edge is held. The piece ends in the last equilibrium reached, whatever the reason.
/// Units: mm, N, rad. Source: docs/theory.md, "Bend-down". Fails: see the report.
[[nodiscard]] StepReport bend_down(
    Workpiece& piece,
    const ContactChoice& contact,
    const Monitor& monitor,
    const ShapeListener& listener,
    const StepKeeping& keeping = {}
);

} // namespace flangewright::process
