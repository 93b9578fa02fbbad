#include "solver/process/free_balance.hpp"

#include "solver/process/rigid_supports.hpp"

#include <Eigen/Geometry>

namespace flangewright::process {

using shell::dof_per_node;

void hold_present_shape(Workpiece& piece) {
    const equilibrium::Problem problem = problem_of(piece);
    const equilibrium::Shape shape = equilibrium::shape_of(piece.state, piece.node_axes);
    const equilibrium::Balance balance = piece.system->balance(problem, shape, false);
    piece.held_by = equilibrium::DeadLoads::none(piece.model.n_nodes());
    for (int node = 0; node < piece.model.n_nodes(); ++node) {
        const auto at = static_cast<std::size_t>(node);
        const auto residual = balance.residual.segment<5>(node * dof_per_node);
        piece.held_by.on_positions.col(node) = piece.node_axes[at] * residual.head<3>();
        const Eigen::Vector3d on_director = shape.rotation_bases[at] * residual.tail<2>();
        const Eigen::Vector3d director = shape.directors.col(node);
        piece.held_by.moments.col(node) = director.cross(on_director);
    }
}

StepReport balance_free(
    Workpiece& piece,
    job::StepKind kind,
    const FreeBalanceChoice& choice,
    const Monitor& monitor,
    const StepKeeping& keeping
) {
    equilibrium::Problem problem = problem_of(piece);
    if (choice.holds_web_edge) {
        for (const int node : piece.mesh.web_edge) {
            for (const int k : {1, 2, 4}) { // across, height, slope
                problem.is_fixed[static_cast<std::size_t>(node * dof_per_node + k)] = true;
            }
        }
    }
    add_rigid_supports(piece, problem.is_fixed);
    const equilibrium::DeadLoads full = piece.held_by;
    equilibrium::Path path;
    // Forces that keep their direction can't hold a squeezed flange steady as the tools did;
    // springs back to the held shape do so on the way, and are gone at the end.
    problem.anchors = piece.state.positions;
    const double spring =
        choice.spring_factor * piece.job.sheet.material.youngs_modulus / piece.job.sheet.thickness;
    path.set = [&full, spring](equilibrium::Problem& now, double share) {
        const double left = 1 - share;
        now.loads = equilibrium::DeadLoads::none(static_cast<int>(full.on_positions.cols()));
        now.loads.add(full, left);
        now.anchor_stiffness = left > 1e-9 ? spring * left * left * left : 0;
    };
    path.on_accepted = teller(monitor, kind, piece);
    take_up(keeping, piece, path);
    equilibrium::PathLimits limits;
    limits.first_step = choice.largest_step;
    limits.largest_step = choice.largest_step;
    limits.newton.largest_turn = 0.5;
    const equilibrium::Balancer balancer{*piece.system, *piece.solver, piece.n_threads};
    equilibrium::PathReport report =
        equilibrium::follow_path(balancer, problem, piece.state, path, limits, monitor.stop);
    if (report.end == equilibrium::PathEnd::done) {
        equilibrium::settle(balancer, problem, piece.state, limits.newton, report);
    }
    piece.held_by = equilibrium::DeadLoads::none(piece.model.n_nodes());
    return report_of(report, driven_angle(piece), 0);
}

} // namespace flangewright::process
