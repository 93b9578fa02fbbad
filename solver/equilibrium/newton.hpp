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
    int n_iterations_most = 30;
    int n_shortenings_most = 6; ///< of a step, by the line search
    double slope_left = 0.5; ///< part of the energy's slope the line search is content with
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
/// slope of the energy along them has come down. Units: mm, N, rad.
/// Source: textbook Newton; line search crisfield-1991, ch. 9. Fails: see the report.
[[nodiscard]] NewtonReport find_equilibrium(
    SheetSystem& system,
    LinearSolver& solver,
    const Problem& problem,
    Shape& shape,
    const NewtonLimits& limits,
    const std::stop_token& stop
);

} // namespace flangewright::equilibrium
