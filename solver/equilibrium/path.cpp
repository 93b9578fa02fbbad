#include "solver/equilibrium/path.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::equilibrium {

namespace {

// One try at an increment: balance, then let the sheet remember. The state changes only on success.
NewtonReport try_increment(
    const Balancer& balancer,
    Problem& problem,
    Shape& shape,
    shell::SheetState& state,
    const NewtonLimits& limits,
    const std::stop_token& stop
) {
    NewtonReport report = find_equilibrium_with_friction(
        balancer.system, balancer.solver, problem, shape, limits, stop
    );
    if (report.end != NewtonEnd::converged) {
        return report;
    }
    shell::SheetState next = state;
    next.positions = shape.positions;
    next.directors = shape.directors;
    if (!shell::remember_shape(*problem.model, next, balancer.n_threads)) {
        report.end = NewtonEnd::not_finite;
        return report;
    }
    state = std::move(next);
    remember_friction(problem, shape);
    return report;
}

// The shape an increment begins with, friction ready for it.
Shape begin_increment(Problem& problem, const shell::SheetState& state) {
    problem.half_thickness = shell::half_thickness(*problem.model, state);
    Shape shape = shape_of(state, problem.node_axes);
    begin_friction(problem, shape);
    return shape;
}

// Tools back to where the sheet is.
void go_back(
    Problem& problem, const shell::SheetState& state, const Path& path, double share_done
) {
    path.set(problem, share_done);
    begin_friction(problem, shape_of(state, problem.node_axes));
}

std::vector<FrictionMemory> friction_memory(const Problem& problem) {
    std::vector<FrictionMemory> memory;
    for (const ToolFriction& friction : problem.friction) {
        memory.push_back(friction.memory);
    }
    return memory;
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
    const double turned = last.turns.colwise().norm().maxCoeff();
    if (turned > 0) {
        factor = std::min(factor, limits.largest_turn / turned);
    }
    return std::clamp(step * factor, limits.smallest_step, limits.largest_step);
}

} // namespace

PathReport follow_path(
    const Balancer& balancer,
    Problem& problem,
    shell::SheetState& state,
    const Path& path,
    const PathLimits& limits,
    const std::stop_token& stop
) {
    constexpr double cut = 0.35;
    constexpr double end_of_path = 1 - 1e-12;
    PathMemory now = path.begin_from.value_or(PathMemory{{}, limits.first_step, {}, {}});
    path.set(problem, now.report.share_done);
    prepare_friction(problem);
    for (std::size_t tool = 0; tool < std::min(now.friction.size(), problem.friction.size());
         ++tool) {
        problem.friction[tool].memory = now.friction[tool];
    }
    PathReport& report = now.report;
    Increment& last = now.last;
    double& step = now.step;
    while (report.share_done < end_of_path) {
        step = std::min(step, 1 - report.share_done);
        path.set(problem, report.share_done + step);
        Shape shape = begin_increment(problem, state);
        if (last.share > 0) {
            carry_on(balancer.system, problem, shape, last, step);
        }
        const shell::SheetState before = state;
        const NewtonReport newton =
            try_increment(balancer, problem, shape, state, limits.newton, stop);
        report.n_iterations += newton.n_iterations;
        if (newton.end == NewtonEnd::stop_requested) {
            go_back(problem, state, path, report.share_done);
            report.end = PathEnd::stop_requested;
            return report;
        }
        if (newton.end != NewtonEnd::converged) {
            ++report.n_cutbacks;
            step *= cut;
            if (step < limits.smallest_step) {
                go_back(problem, state, path, report.share_done);
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
            now.friction = friction_memory(problem);
            path.on_memory(now);
        }
    }
    report.end = PathEnd::done;
    return report;
}

void settle(
    const Balancer& balancer,
    Problem& problem,
    shell::SheetState& state,
    const NewtonLimits& limits,
    PathReport& report
) {
    constexpr int n_rounds = 2; // the second one takes up what the first one's thinning changed
    for (int round = 0; round < n_rounds; ++round) {
        Shape shape = begin_increment(problem, state);
        const NewtonReport newton = try_increment(balancer, problem, shape, state, limits, {});
        report.n_iterations += newton.n_iterations;
        if (newton.end == NewtonEnd::converged) {
            report.residual = newton.residual;
        }
    }
}

} // namespace flangewright::equilibrium
