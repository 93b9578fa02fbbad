// The return bend: the flange's edge is bent into a lip over a second nose.
#pragma once

#include "mesh/base/progress.hpp"
#include "solver/process/fold.hpp"
#include "solver/process/step_keeping.hpp"
#include "solver/process/workpiece.hpp"

namespace flangewright::process {

/// The web lies clamped on the block, as bend-down or set-on-block left it. First the flange is
/// brought flat to the blocks between which it is clamped, then a wiper drives the lip over the
/// second nose. Starts from whatever hardening and stress the steps before left; leaves in
/// `piece.held_by` what blocks, clamp and wiper then do. Job and mesh must be those of a part with
/// a lip. The report's angle is that of the lip to the flange. Units: mm, N, rad. Source:
/// docs/theory.md, "Return bend". Fails: see the report.
[[nodiscard]] StepReport return_bend(
    Workpiece& piece,
    const ContactChoice& contact,
    const Monitor& monitor,
    const ShapeListener& listener = {},
    const StepKeeping& keeping = {}
);

} // namespace flangewright::process
