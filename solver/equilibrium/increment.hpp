// One increment: where it begins, and its balance with all that the sheet remembers of it.
#pragma once

#include "solver/equilibrium/path.hpp"

namespace flangewright::equilibrium {

/// The shape an increment begins with, thickness and friction ready for it. Units: mm.
/// Source: none needed. Fails: never.
[[nodiscard]] Shape begin_increment(Problem& problem, const shell::SheetState& state);

/// Balances a shape, then lets the sheet remember it. The state changes only on success. Units: mm,
/// N, rad. Source: friction_rounds.hpp, shell_model.hpp. Fails: see the report.
[[nodiscard]] NewtonReport balance_and_remember(
    const Balancer& balancer,
    Problem& problem,
    Shape& shape,
    shell::SheetState& state,
    const NewtonLimits& limits,
    const std::stop_token& stop
);

} // namespace flangewright::equilibrium
