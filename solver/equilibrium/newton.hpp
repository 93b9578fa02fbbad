// Newton's method to equilibrium within one increment.
#pragma once

#include "solver/equilibrium/linear_solver.hpp"
#include "solver/equilibrium/sheet_system.hpp"

#include <stop_token>

namespace flangewright::equilibrium {

/// When to be content, and when to give up.
struct NewtonLimits {
    double tolerance = 1e-5; ///< residual over the scale of the element forces
    double smallest_scale = 1e-6; ///< floor of that scale, N
    int n_iterations_most = 40;
    int n_halvings_most = 6; ///< of the line search
    int n_patience = 8; ///< iterations within which the residual must halve
    double largest_turn = 0.15; ///< of a director in one iteration, rad
    double largest_move = 1.0; ///< of a node in one iteration, mm
};

/// Why it ended.
enum class NewtonEnd { converged, too_slow, not_solvable, not_finite, stop_requested };

/// How it went.
struct NewtonReport {
    NewtonEnd end = NewtonEnd::not_finite;
    int n_iterations = 0;
    int n_negative_pivots = 0; ///< of the last factor
    double residual = -1; ///< relative, last
};

/// Moves `shape` to equilibrium, or leaves it where it gave up. Full steps, shortened until the
/// residual falls. Units: mm, N, rad. Source: textbook Newton with monotone line search
/// (nocedal-wright-2006, ch. 11). Fails: see the report.
[[nodiscard]] NewtonReport find_equilibrium(
    SheetSystem& system,
    LinearSolver& solver,
    const Problem& problem,
    Shape& shape,
    const NewtonLimits& limits,
    const std::stop_token& stop
);

} // namespace flangewright::equilibrium
