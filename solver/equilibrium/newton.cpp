#include "solver/equilibrium/newton.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
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

// Halves the step until the residual falls; the best one tried is returned when none does.
Candidate search_along(
    SheetSystem& system,
    const Problem& problem,
    const Shape& from,
    const Eigen::VectorXd& step,
    double norm_before,
    const NewtonLimits& limits
) {
    Candidate best;
    double share = allowed_share(step, limits);
    for (int i = 0; i <= limits.n_halvings_most; ++i) {
        Candidate next{from, {}, i == 0};
        move_shape(next.shape, problem.node_axes, share * step);
        // The first try nearly always stands, so its stiffness is made along with it.
        next.balance = system.balance(problem, next.shape, i == 0);
        const bool is_better = next.balance.is_good
            && (!best.balance.is_good || next.balance.norm < best.balance.norm);
        if (is_better) {
            best = std::move(next);
        }
        if (best.balance.is_good && best.balance.norm < norm_before) {
            break;
        }
        share *= 0.5;
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
    std::vector<double> norms;
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
        norms.push_back(balance.norm);
        const auto patience = static_cast<std::size_t>(limits.n_patience);
        const bool is_stuck =
            norms.size() > patience && norms.back() > 0.5 * norms[norms.size() - 1 - patience];
        if (is_stuck || report.n_iterations >= limits.n_iterations_most) {
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
        Candidate next = search_along(system, problem, shape, step, balance.norm, limits);
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
