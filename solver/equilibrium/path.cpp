#include "solver/equilibrium/path.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>

namespace flangewright::equilibrium {

namespace {

using shell::dof_per_node;

Eigen::Vector3d rotation_between(const Eigen::Vector3d& from, const Eigen::Vector3d& to) {
    const Eigen::Vector3d axis = from.cross(to);
    const double sine = axis.norm();
    if (sine < 1e-14) {
        return Eigen::Vector3d::Zero();
    }
    return std::atan2(sine, from.dot(to)) / sine * axis;
}

Eigen::Vector3d rotated(const Eigen::Vector3d& vector, const Eigen::Vector3d& rotation) {
    const double angle = rotation.norm();
    if (angle < 1e-14) {
        return vector;
    }
    return Eigen::AngleAxisd(angle, rotation / angle) * vector;
}

Increment increment_between(const shell::SheetState& before, const Shape& after, double share) {
    Increment increment;
    increment.moves = after.positions - before.positions;
    increment.turns.resize(3, before.directors.cols());
    for (Eigen::Index node = 0; node < before.directors.cols(); ++node) {
        increment.turns.col(node) =
            rotation_between(before.directors.col(node), after.directors.col(node));
    }
    increment.share = share;
    return increment;
}

// Carries the last increment on. A turning flange must not be carried on along its old direction:
// that would stretch it, so each node's move is turned as its director has turned.
void predict(Shape& shape, const Problem& problem, const Increment& last, double share) {
    const double ratio = share / last.share;
    Eigen::VectorXd change(shape.positions.cols() * dof_per_node);
    for (Eigen::Index node = 0; node < shape.positions.cols(); ++node) {
        const auto at = static_cast<std::size_t>(node);
        const Eigen::Vector3d turn = last.turns.col(node);
        const Eigen::Vector3d move =
            ratio * rotated(last.moves.col(node), 0.5 * (1 + ratio) * turn);
        const Eigen::Vector3d director = shape.directors.col(node);
        auto part = change.segment<5>(node * dof_per_node);
        part.head<3>() = problem.node_axes[at].transpose() * move;
        part.tail<2>() = shape.rotation_bases[at].transpose() * (ratio * turn).cross(director);
    }
    for (Eigen::Index i = 0; i < change.size(); ++i) {
        if (problem.is_fixed[static_cast<std::size_t>(i)]) {
            change[i] = 0;
        }
    }
    move_shape(shape, problem.node_axes, change);
}

double largest_turn(const Increment& increment) {
    return increment.turns.colwise().norm().maxCoeff();
}

// One try at an increment: balance, then let the sheet remember. The state changes only on success.
NewtonReport try_increment(
    SheetSystem& system,
    LinearSolver& solver,
    const Problem& problem,
    Shape& shape,
    shell::SheetState& state,
    const PathLimits& limits,
    int n_threads,
    const std::stop_token& stop
) {
    NewtonReport report = find_equilibrium(system, solver, problem, shape, limits.newton, stop);
    if (report.end != NewtonEnd::converged) {
        return report;
    }
    shell::SheetState next = state;
    next.positions = shape.positions;
    next.directors = shape.directors;
    if (!shell::remember_shape(*problem.model, next, n_threads)) {
        report.end = NewtonEnd::not_finite;
        return report;
    }
    state = std::move(next);
    return report;
}

double next_step(
    double step, const NewtonReport& newton, const Increment& last, const PathLimits& limits
) {
    constexpr double grow_most = 1.5;
    constexpr double shrink_most = 0.5;
    const double by_effort = std::sqrt(
        static_cast<double>(limits.n_iterations_wanted) / std::max(newton.n_iterations, 1)
    );
    double factor = std::clamp(by_effort, shrink_most, grow_most);
    const double turned = largest_turn(last);
    if (turned > 0) {
        factor = std::min(factor, limits.largest_turn / turned);
    }
    return std::clamp(step * factor, limits.smallest_step, limits.largest_step);
}

} // namespace

PathReport follow_path(
    SheetSystem& system,
    LinearSolver& solver,
    Problem& problem,
    shell::SheetState& state,
    const Path& path,
    const PathLimits& limits,
    int n_threads,
    const std::stop_token& stop
) {
    constexpr double cut = 0.35;
    constexpr double end_of_path = 1 - 1e-12;
    PathMemory now = path.begin_from.value_or(PathMemory{{}, limits.first_step, {}});
    PathReport& report = now.report;
    Increment& last = now.last;
    double& step = now.step;
    while (report.share_done < end_of_path) {
        step = std::min(step, 1 - report.share_done);
        path.set(problem, report.share_done + step);
        problem.half_thickness = shell::half_thickness(*problem.model, state);
        Shape shape = shape_of(state, problem.node_axes);
        if (last.share > 0) {
            predict(shape, problem, last, step);
        }
        const shell::SheetState before = state;
        const NewtonReport newton =
            try_increment(system, solver, problem, shape, state, limits, n_threads, stop);
        report.n_iterations += newton.n_iterations;
        if (newton.end == NewtonEnd::stop_requested) {
            path.set(problem, report.share_done);
            report.end = PathEnd::stop_requested;
            return report;
        }
        if (newton.end != NewtonEnd::converged) {
            ++report.n_cutbacks;
            step *= cut;
            if (step < limits.smallest_step) {
                path.set(problem, report.share_done); // tools back to where the sheet is
                report.end = PathEnd::no_equilibrium;
                return report;
            }
            continue;
        }
        ++report.n_increments;
        report.n_indefinite += newton.n_negative_pivots > 0 ? 1 : 0;
        report.residual = newton.residual;
        report.share_done += step;
        last = increment_between(before, shape, step);
        step = next_step(step, newton, last, limits);
        if (path.on_accepted && !path.on_accepted(report)) {
            report.end = PathEnd::done;
            return report;
        }
        if (path.on_memory && report.share_done < end_of_path) {
            path.on_memory(now);
        }
    }
    report.end = PathEnd::done;
    return report;
}

void settle(
    SheetSystem& system,
    LinearSolver& solver,
    Problem& problem,
    shell::SheetState& state,
    const PathLimits& limits,
    int n_threads,
    PathReport& report
) {
    constexpr int n_rounds = 2; // the second one takes up what the first one's thinning changed
    for (int round = 0; round < n_rounds; ++round) {
        problem.half_thickness = shell::half_thickness(*problem.model, state);
        Shape shape = shape_of(state, problem.node_axes);
        const NewtonReport newton =
            try_increment(system, solver, problem, shape, state, limits, n_threads, {});
        report.n_iterations += newton.n_iterations;
        if (newton.end == NewtonEnd::converged) {
            report.residual = newton.residual;
        }
    }
}

} // namespace flangewright::equilibrium
