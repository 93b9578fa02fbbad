// Follows a step from start to end in increments: predict, balance, accept or cut back.
#pragma once

#include "mesh/base/progress.hpp"
#include "solver/equilibrium/friction_rounds.hpp"
#include "solver/equilibrium/predictor.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace flangewright::equilibrium {

/// How to step. Shares of the path, 0 to 1.
struct PathLimits {
    double first_step = 0.01;
    double smallest_step = 1e-6;
    double largest_step = 0.05;
    double largest_turn = 0.035; ///< of a director in one increment, rad (2 deg)
    int n_iterations_wanted = 12; ///< more: shorter steps follow; fewer: longer ones
    NewtonLimits newton;
};

/// Why a path ended.
enum class PathEnd { done, no_equilibrium, stop_requested };

/// How a path went.
struct PathReport {
    PathEnd end = PathEnd::no_equilibrium;
    int n_increments = 0;
    int n_iterations = 0;
    int n_cutbacks = 0;
    int n_indefinite = 0; ///< accepted increments whose last factor had negative pivots
    int n_moved = 0; ///< increments that only damped dynamics could bring to rest
    double share_done = 0;
    double residual = -1; ///< of the last accepted increment
};

/// All that a path carries from one increment to the next beside the state: with it a path goes on
/// as if it had never stopped. What the stepping remembers belongs in here and nowhere else.
struct PathMemory {
    PathReport report;
    double step = 0; ///< share to try next
    Increment last;
    std::vector<FrictionMemory> friction; ///< per tool; empty without friction
};

/// The path itself.
struct Path {
    /// Brings tools and loads of the problem to a share of the path.
    std::function<void(Problem&, double share)> set;
    /// Told after each accepted increment; the state is up to date. Returning false ends the path
    /// early as done.
    std::function<bool(const PathReport&)> on_accepted;
    /// Damped dynamics takes over where no static equilibrium is found. Forces must not hang on
    /// anchors then.
    bool may_move = false;
    /// Largest step that may follow the one just accepted; nothing: any.
    std::function<double(const PathReport&)> step_most = {};
    /// Shares of the path to come to exactly, rising.
    std::vector<double> stops = {};
    /// Where to go on, with the state that belongs to it; nothing: from the start.
    std::optional<PathMemory> begin_from = {};
    /// Told after each accepted increment but the last what it takes to go on from there.
    std::function<void(const PathMemory&)> on_memory = {};
};

/// What balances the sheet of one model.
struct Balancer {
    SheetSystem& system;
    LinearSolver& solver;
    int n_threads = 1; ///< that let the sheet remember
};

/// Units: mm, N, rad. `state` moves along and is always the last accepted one; `problem.state` must
/// point to it. Source: step size steered by iteration count and by the turning of the sheet,
/// predictor in predictor.hpp. Fails: see the report.
[[nodiscard]] PathReport follow_path(
    const Balancer& balancer,
    Problem& problem,
    shell::SheetState& state,
    const Path& path,
    const PathLimits& limits,
    const std::stop_token& stop
);

/// Balances the state where it is, so that thickness and shape, which lag each other by one
/// increment on the way, agree at the end. Iterations and the residual reached go into `report`;
/// the state stays as it was when it can't be balanced. Units, source: as follow_path().
/// Fails: never.
void settle(
    const Balancer& balancer,
    Problem& problem,
    shell::SheetState& state,
    const NewtonLimits& limits,
    PathReport& report
);

} // namespace flangewright::equilibrium
