#include "solver/equilibrium/newton.hpp"

#include "solver/equilibrium/energy_slope.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <vector>

namespace flangewright::equilibrium {

namespace {

using shell::dof_per_node;

void clear_fixed(Eigen::VectorXd& vector, const std::vector<bool>& is_fixed) {
    for (Eigen::Index i = 0; i < vector.size(); ++i) {
        if (is_fixed[static_cast<std::size_t>(i)]) {
            vector[i] = 0;
        }
    }
}

// Shortens a step so that no node moves or turns too far at once.
double allowed_share(const Eigen::VectorXd& step, const NewtonLimits& limits) {
    double share = 1;
    for (Eigen::Index node = 0; node < step.size() / dof_per_node; ++node) {
        const double move = step.segment<3>(node * dof_per_node).norm();
        const double turn = step.segment<2>(node * dof_per_node + 3).norm();
        share = std::min(share, limits.largest_move / std::max(move, limits.largest_move));
        share = std::min(share, limits.largest_turn / std::max(turn, limits.largest_turn));
    }
    return share;
}

double relative(const Balance& balance, const NewtonLimits& limits) {
    return balance.norm / std::max(balance.scale, limits.smallest_scale);
}

struct Candidate {
    Shape shape;
    Balance balance;
    bool has_stiffness = false; ///< the system still holds the stiffness of this shape
};

// Slope of the energy along a step. Tools without friction and one increment's plasticity have an
// energy, so this, not the residual's norm, says whether a step went too far: a node a micron deep
// in a tool dominates the norm, though it hardly costs energy.
double slope_along(const Eigen::VectorXd& step, const Balance& balance) {
    return step.dot(balance.residual);
}

// Shortens the step until the energy's slope has come down to a part of what it was; where the
// tangent is indefinite and the step does not lead down, until the residual falls. The best one
// tried is returned when neither is reached.
Candidate search_along(
    SheetSystem& system,
    const Problem& problem,
    const Shape& from,
    const Eigen::VectorXd& step,
    const Balance& before,
    const NewtonLimits& limits
) {
    const double slope_before = slope_along(step, before);
    const bool leads_down = slope_before < 0;
    const double share_most = allowed_share(step, limits);
    SlopeAt low{0, slope_before};
    SlopeAt high{share_most, -slope_before};
    double share = share_most;
    Candidate best;
    double best_measure = std::numeric_limits<double>::infinity();
    const double enough = leads_down ? limits.slope_left * -slope_before : before.norm;
    for (int i = 0; i <= limits.n_shortenings_most; ++i) {
        Candidate next{from, {}, i == 0};
        move_shape(next.shape, problem.node_axes, share * step);
        // The first try mostly stands, so its stiffness is made along with it.
        next.balance = system.balance(problem, next.shape, i == 0);
        if (!next.balance.is_good) {
            share = 0.5 * (low.share + share);
            continue;
        }
        const double slope = slope_along(step, next.balance);
        const double measure = leads_down ? std::abs(slope) : next.balance.norm;
        if (measure < best_measure) {
            best_measure = measure;
            best = std::move(next);
        }
        const bool is_far_enough = leads_down && slope < 0 && share == share_most;
        if (measure < enough || is_far_enough) {
            break;
        }
        if (!leads_down) {
            share *= 0.5;
            continue;
        }
        (slope < 0 ? low : high) = {share, slope};
        share = level_between(low, high);
    }
    return best;
}

} // namespace

NewtonReport find_equilibrium(
    SheetSystem& system,
    LinearSolver& solver,
    const Problem& problem,
    Shape& shape,
    const NewtonLimits& limits,
    const std::stop_token& stop
) {
    NewtonReport report;
    Balance balance = system.balance(problem, shape, true);
    while (true) {
        if (stop.stop_requested()) {
            report.end = NewtonEnd::stop_requested;
            return report;
        }
        if (!balance.is_good) {
            report.end = NewtonEnd::not_finite;
            return report;
        }
        report.residual = relative(balance, limits);
        if (report.residual <= limits.tolerance) {
            report.end = NewtonEnd::converged;
            return report;
        }
        if (report.n_iterations >= limits.n_iterations_most) {
            report.end = NewtonEnd::too_slow;
            return report;
        }
        Eigen::VectorXd step = -balance.residual;
        clear_fixed(step, problem.is_fixed);
        const auto begin = std::chrono::steady_clock::now();
        const std::optional<int> n_negative = solver.factorise(system.stiffness());
        if (n_negative) {
            step = solver.solve(step);
        }
        system.clock().factorise +=
            std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
        if (!n_negative || !step.allFinite()) {
            report.end = NewtonEnd::not_solvable;
            return report;
        }
        report.n_negative_pivots = *n_negative;
        ++report.n_iterations;
        clear_fixed(step, problem.is_fixed);
        Candidate next = search_along(system, problem, shape, step, balance, limits);
        if (!next.balance.is_good) {
            report.end = NewtonEnd::not_finite;
            return report;
        }
        shape = std::move(next.shape);
        // A shortened step left the stiffness of the full one behind.
        const bool is_done = relative(next.balance, limits) <= limits.tolerance;
        balance = is_done || next.has_stiffness ? std::move(next.balance)
                                                : system.balance(problem, shape, true);
    }
}

} // namespace flangewright::equilibrium
