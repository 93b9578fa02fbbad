// Where no static equilibrium is found near by: the sheet is let move, damped, until it rests.
#pragma once

#include "solver/equilibrium/path.hpp"

namespace flangewright::equilibrium {

/// Marches the sheet in time with tools and loads held, by backward Euler, whose own damping is
/// strong, and ends in static equilibrium. The state remembers each instant, so that plastic flow
/// follows the way taken; it stays as it was when the sheet does not come to rest. Masses are not
/// the sheet's own: only where it comes to rest is of interest. Units: mm, N. Source: backward
/// Euler, textbook (docs/theory.md, "Damped dynamics"). Fails: see the report.
[[nodiscard]] NewtonReport come_to_rest(
    const Balancer& balancer,
    Problem& problem,
    shell::SheetState& state,
    const NewtonLimits& limits,
    const std::stop_token& stop
);

} // namespace flangewright::equilibrium
