#include "solver/process/set_on_block.hpp"

#include "solver/process/rigid_supports.hpp"
#include "solver/tooling/surface/form_block.hpp"

namespace flangewright::process {

namespace {

using shell::dof_per_node;

constexpr int height = 2; // among a node's axes
constexpr double rounding = 1e-9; // mm

bool is_under_backing(const Workpiece& piece, int node) {
    return piece.mesh.distance[node] <= rounding - piece.job.block.backing_setback;
}

// Heights of the web go to where its block face lies on the block.
void lead_web_down(const Workpiece& piece, equilibrium::Problem& problem) {
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        if (is_under_backing(piece, node)) {
            const double from = piece.state.positions(height, node);
            problem.guides.push_back({node, height, from, problem.half_thickness[node]});
            problem.is_fixed[static_cast<std::size_t>(node * dof_per_node + height)] = true;
        }
    }
}

tooling::SweptContact block_under(const Workpiece& piece, const ContactChoice& contact) {
    const job::Job& job = piece.job;
    tooling::SweptContact block;
    block.line = job.blank.line;
    block.surface =
        std::make_shared<tooling::FormBlock>(job.block.nose_radius, job.block.wall_angle);
    block.law = {contact_stiffness(job.sheet, contact.stiffness_factor), contact.ramp};
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        if (!is_under_backing(piece, node)) {
            block.nodes.push_back(node);
        }
    }
    return block;
}

} // namespace

StepReport set_on_block(
    Workpiece& piece,
    const ContactChoice& contact,
    const Monitor& monitor,
    const StepKeeping& keeping
) {
    const std::vector<bool> symmetry = symmetry_supports(piece);
    equilibrium::Problem problem;
    problem.model = &piece.model;
    problem.state = &piece.state;
    problem.node_axes = piece.node_axes;
    problem.loads = equilibrium::DeadLoads::none(piece.model.n_nodes());
    problem.half_thickness = shell::half_thickness(piece.model, piece.state);
    problem.is_fixed = symmetry;
    lead_web_down(piece, problem);
    add_rigid_supports(piece, problem.is_fixed);
    problem.contacts = {block_under(piece, contact)};

    equilibrium::Path path;
    path.set = [](equilibrium::Problem& now, double share) { now.guided_share = share; };
    path.on_accepted = [&](const equilibrium::PathReport& report) {
        monitor.report({
            .step = name_of(job::StepKind::set_on_block),
            .share_done = report.share_done,
            .flange_angle = driven_angle(piece),
            .n_increments = report.n_increments,
            .n_iterations = report.n_iterations,
        });
        return true;
    };
    take_up(keeping, piece, path);
    equilibrium::PathLimits limits;
    limits.first_step = 0.1;
    limits.largest_step = 0.2;
    const equilibrium::Balancer balancer{*piece.system, *piece.solver, piece.n_threads};
    equilibrium::PathReport report =
        equilibrium::follow_path(balancer, problem, piece.state, path, limits, monitor.stop);
    if (report.end == equilibrium::PathEnd::done) {
        equilibrium::settle(balancer, problem, piece.state, limits.newton, report);
    }
    problem.half_thickness = shell::half_thickness(piece.model, piece.state);
    piece.held_by = holding_forces(piece, problem, symmetry);
    const equilibrium::Shape shape = equilibrium::shape_of(piece.state, problem.node_axes);
    return report_of(report, driven_angle(piece), equilibrium::deepest_penetration(problem, shape));
}

} // namespace flangewright::process
