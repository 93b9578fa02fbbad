#include "solver/equilibrium/path.hpp"

#include "solver/equilibrium/damped_dynamics.hpp"
#include "solver/equilibrium/increment.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::equilibrium {

namespace {

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

double
shortened(double step, const Path& path, const PathReport& report, const PathLimits& limits) {
    return path.step_most ? std::clamp(path.step_most(report), limits.smallest_step, step) : step;
}

// Comes to the next stop exactly, in two equal steps when it is near: a crumb of a step would have
// to grow again.
double stopping(double step, double share_done, const Path& path) {
    constexpr double rounding = 1e-9;
    const auto next = std::ranges::upper_bound(path.stops, share_done + rounding);
    if (next == path.stops.end()) {
        return std::min(step, 1 - share_done);
    }
    const double left = *next - share_done;
    return step > 0.5 * left && step < left ? 0.5 * left : std::min(step, left);
}

bool has_failed(const NewtonReport& newton) {
    return newton.end != NewtonEnd::converged && newton.end != NewtonEnd::stop_requested;
}

// Takes up what an earlier run kept, or begins.
PathMemory begin_path(Problem& problem, const Path& path, const PathLimits& limits) {
    PathMemory now = path.begin_from.value_or(PathMemory{{}, limits.first_step, {}, {}});
    path.set(problem, now.report.share_done);
    prepare_friction(problem);
    const std::size_t n_kept = std::min(now.friction.size(), problem.friction.size());
    for (std::size_t tool = 0; tool < n_kept; ++tool) {
        problem.friction[tool].memory = now.friction[tool];
    }
    return now;
}

// One step of the path tried: statically, and once that fails however short, damped.
class Stepper {
public:
    Stepper(
        const Balancer& balancer,
        Problem& problem,
        shell::SheetState& state,
        const Path& path,
        const PathLimits& limits,
        const std::stop_token& stop
    )
        : balancer_(balancer), problem_(problem), state_(state), path_(path), limits_(limits),
          stop_(stop) {}

    NewtonReport try_statically(PathMemory& now) {
        path_.set(problem_, now.report.share_done + now.step);
        Shape shape = begin_increment(problem_, state_);
        if (now.last.share > 0) {
            carry_on(balancer_.system, problem_, shape, now.last, now.step);
        }
        follow_guides(problem_, shape);
        const shell::SheetState before = state_;
        const NewtonReport newton =
            balance_and_remember(balancer_, problem_, shape, state_, limits_.newton, stop_);
        if (newton.end == NewtonEnd::converged) {
            now.last = increment_between(before, shape, now.step);
        }
        return newton;
    }

    NewtonReport let_move(PathMemory& now) {
        now.step = std::min(limits_.first_step, 1 - now.report.share_done);
        path_.set(problem_, now.report.share_done + now.step);
        const NewtonReport newton =
            come_to_rest(balancer_, problem_, state_, limits_.newton, stop_);
        if (newton.end == NewtonEnd::converged) {
            ++now.report.n_moved;
            // A jump says nothing about how it goes on.
            const Shape shape = shape_of(state_, problem_.node_axes);
            now.last = increment_between(state_, shape, now.step);
        }
        return newton;
    }

private:
    const Balancer& balancer_;
    Problem& problem_;
    shell::SheetState& state_;
    const Path& path_;
    const PathLimits& limits_;
    const std::stop_token& stop_;
};

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
    PathMemory now = begin_path(problem, path, limits);
    PathReport& report = now.report;
    Stepper stepper(balancer, problem, state, path, limits, stop);
    while (report.share_done < end_of_path) {
        now.step = stopping(std::min(now.step, 1 - report.share_done), report.share_done, path);
        NewtonReport newton = stepper.try_statically(now);
        report.n_iterations += newton.n_iterations;
        const bool is_stuck = has_failed(newton) && cut * now.step < limits.smallest_step;
        if (is_stuck && path.may_move) {
            newton = stepper.let_move(now);
            report.n_iterations += newton.n_iterations;
        }
        if (newton.end == NewtonEnd::stop_requested) {
            go_back(problem, state, path, report.share_done);
            report.end = PathEnd::stop_requested;
            return report;
        }
        if (has_failed(newton)) {
            ++report.n_cutbacks;
            now.step *= cut;
            if (is_stuck) {
                go_back(problem, state, path, report.share_done);
                report.end = PathEnd::no_equilibrium;
                return report;
            }
            continue;
        }
        ++report.n_increments;
        report.n_indefinite += newton.n_negative_pivots > 0 ? 1 : 0;
        report.residual = newton.residual;
        report.share_done += now.step;
        now.step = next_step(now.step, newton, now.last, limits);
        if (path.on_accepted && !path.on_accepted(report)) {
            break;
        }
        now.step = shortened(now.step, path, report, limits);
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
        const NewtonReport newton =
            balance_and_remember(balancer, problem, shape, state, limits, {});
        report.n_iterations += newton.n_iterations;
        if (newton.end == NewtonEnd::converged) {
            report.residual = newton.residual;
        }
    }
}

} // namespace flangewright::equilibrium
