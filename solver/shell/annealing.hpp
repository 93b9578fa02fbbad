// The sheet loses stress and hardening where it is and keeps its shape.
#pragma once

#include "solver/shell/shell_model.hpp"

namespace flangewright::shell {

/// Makes the present strain of every point stress-free: all of it becomes plastic, hardening and
/// back stresses begin anew. Thickness follows from constant volume. Transverse shear, which is
/// elastic in the shell and small, is not wiped: the part's re-balance takes it up.
/// Units: strain in -, back stresses in MPa. Source: derived here (docs/theory.md, "Trim, anneal").
/// Fails: never for a state that is in balance.
void wipe_stress(const ShellModel& model, SheetState& state, int n_threads);

} // namespace flangewright::shell
