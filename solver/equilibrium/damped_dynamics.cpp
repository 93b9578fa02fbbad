#include "solver/equilibrium/damped_dynamics.hpp"

#include "solver/equilibrium/increment.hpp"

#include <cmath>

namespace flangewright::equilibrium {

namespace {

// Mass over the square of the time step, per area, as a share of E / t. Heavy first, lighter as
// the motion allows.
constexpr double heaviest = 1;
constexpr double begin = 1e-3;
constexpr double lightest = 1e-8;
constexpr int n_instants_most = 80;

} // namespace

NewtonReport come_to_rest(
    const Balancer& balancer,
    Problem& problem,
    shell::SheetState& state,
    const NewtonLimits& limits,
    const std::stop_token& stop
) {
    const shell::SheetState before = state;
    const std::vector<ToolFriction> friction_before = problem.friction;
    const double stiffness =
        problem.model->section.elasticity.youngs_modulus / problem.model->section.thickness;
    double inertia = begin;
    Eigen::Matrix3Xd move = Eigen::Matrix3Xd::Zero(3, state.positions.cols());
    NewtonReport total;
    for (int instant = 0; instant < n_instants_most; ++instant) {
        const Eigen::Matrix3Xd from = state.positions;
        // Where the sheet would be by now without forces; springs to there are its inertia.
        problem.anchors = from + move;
        problem.anchor_stiffness = inertia * stiffness;
        Shape shape = begin_increment(problem, state);
        const NewtonReport moved =
            balance_and_remember(balancer, problem, shape, state, limits, stop);
        problem.anchor_stiffness = 0;
        total.n_iterations += moved.n_iterations;
        total.end = moved.end;
        if (moved.end == NewtonEnd::stop_requested) {
            break;
        }
        constexpr double slower = 8;
        constexpr double faster = 4;
        if (moved.end != NewtonEnd::converged) {
            inertia *= slower;
            move /= std::sqrt(slower);
            if (inertia > heaviest) {
                break;
            }
            continue;
        }
        move = state.positions - from;
        Shape rest = begin_increment(problem, state);
        NewtonLimits few = limits;
        few.n_iterations_most = 6; // near rest no more are needed, far from it they would be wasted
        const NewtonReport rested = balance_and_remember(balancer, problem, rest, state, few, stop);
        total.n_iterations += rested.n_iterations;
        if (rested.end == NewtonEnd::converged) {
            total.end = rested.end;
            total.residual = rested.residual;
            total.n_negative_pivots = rested.n_negative_pivots;
            return total;
        }
        if (inertia > lightest) {
            inertia /= faster;
            move *= std::sqrt(faster);
        }
    }
    state = before;
    problem.friction = friction_before;
    if (total.end == NewtonEnd::converged) {
        total.end = NewtonEnd::too_slow; // still on the move
    }
    return total;
}

} // namespace flangewright::equilibrium
