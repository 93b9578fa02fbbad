// Equilibrium with friction: the push that limits it is held while Newton balances the sheet, then
// taken anew, until both agree.
#pragma once

#include "solver/equilibrium/newton.hpp"

namespace flangewright::equilibrium {

/// Gives each tool a memory of no friction yet, unless none of them has any friction or they have
/// one already. Units: mm, N. Source: none needed. Fails: never.
void prepare_friction(Problem& problem);

/// Begins an increment from this shape, with the tools already moved: what stuck goes with its
/// tool. Units: mm, N. Source: docs/theory.md, "Friction". Fails: never.
void begin_friction(Problem& problem, const Shape& shape);

/// Keeps what friction did up to this shape, an equilibrium. Units: mm, N. Source, fails: as
/// begin_friction().
void remember_friction(Problem& problem, const Shape& shape);

/// As find_equilibrium(), and friction obeys the push reached. Units: mm, N, rad.
/// Source: fixed point over Newton, docs/theory.md, "Friction". Fails: see the report; too_slow
/// also when push and friction don't settle.
[[nodiscard]] NewtonReport find_equilibrium_with_friction(
    SheetSystem& system,
    LinearSolver& solver,
    Problem& problem,
    Shape& shape,
    const NewtonLimits& limits,
    const std::stop_token& stop
);

} // namespace flangewright::equilibrium
