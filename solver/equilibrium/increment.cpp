#include "solver/equilibrium/increment.hpp"

#include <utility>

namespace flangewright::equilibrium {

Shape begin_increment(Problem& problem, const shell::SheetState& state) {
    problem.half_thickness = shell::half_thickness(*problem.model, state);
    Shape shape = shape_of(state, problem.node_axes);
    begin_friction(problem, shape);
    return shape;
}

NewtonReport balance_and_remember(
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

} // namespace flangewright::equilibrium
