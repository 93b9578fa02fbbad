// Reads thickness, strains and stresses off a state, at the nodes.
#pragma once

#include "solver/shell/shell_model.hpp"

namespace flangewright::shell {

/// Strains are carried from the in-plane points to the nodes by the element's own bilinear field
/// and averaged there; plastic strain and stress are taken from the nearest points, so that
/// averaging can't overshoot. Units: mm, MPa, log strains. Shape: n_nodes. Source:
/// miehe-apel-lambrecht-2002 (strain measure); derived here (docs/theory.md, "Fields"). Fails:
/// never for an accepted state.
[[nodiscard]] SheetFields recover_fields(const ShellModel& model, const SheetState& state);

} // namespace flangewright::shell
