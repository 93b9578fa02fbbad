// A loose part is put back: its web is pressed flat on the block.
#pragma once

#include "solver/process/fold.hpp"

namespace flangewright::process {

/// Guides and holds in `problem` that lead the web under the backing to where its block face lies
/// on the block. Units: mm. Source: none needed. Fails: never.
void lead_web_down(const Workpiece& piece, equilibrium::Problem& problem);

/// Lays the part on the block as a whole, with its web where it was clamped as nearly as can be,
/// then leads the web under the backing down on the block's face, where it was held in the
/// bend-down; the flange meets the block where it does and nothing drives it. Units: mm, N. Source:
/// docs/theory.md, "Set on block". Fails: see the report.
[[nodiscard]] StepReport set_on_block(
    Workpiece& piece,
    const ContactChoice& contact,
    const Monitor& monitor,
    const StepKeeping& keeping = {}
);

} // namespace flangewright::process
