#include "solver/process/set_on_block.hpp"

#include "solver/findings/set_down.hpp"
#include "solver/process/rigid_supports.hpp"
#include "solver/tooling/surface/form_block.hpp"
#include "solver/tooling/surface/moved_surface.hpp"

#include <utility>

namespace flangewright::process {

namespace {

using shell::dof_per_node;

constexpr int height = 2; // among a node's axes
constexpr double rounding = 1e-9; // mm

bool is_under_backing(const Workpiece& piece, int node) {
    return piece.mesh.distance[node] <= rounding - piece.job.block.backing_setback;
}

} // namespace

void lead_web_down(const Workpiece& piece, equilibrium::Problem& problem) {
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        if (is_under_backing(piece, node)) {
            const double from = piece.state.positions(height, node);
            problem.guides.push_back({node, height, from, problem.half_thickness[node]});
            problem.is_fixed[static_cast<std::size_t>(node * dof_per_node + height)] = true;
        }
    }
}

namespace {

tooling::SweptContact block_under(
    const Workpiece& piece,
    std::shared_ptr<const tooling::RigidSurface> surface,
    const ContactChoice& contact
) {
    const job::Job& job = piece.job;
    tooling::SweptContact block;
    block.line = job.blank.line;
    block.surface = std::move(surface);
    block.law = {contact_stiffness(job.sheet, contact.stiffness_factor), contact.ramp};
    // A bent lip lies past the block's wall.
    const double end = job.blank.has_lip ? job.blank.lip_begin() : job.blank.flange_width;
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        if (!is_under_backing(piece, node) && piece.mesh.distance[node] <= end + rounding) {
            block.nodes.push_back(node);
        }
    }
    return block;
}

// A loose part has drifted: without this the nose would push against the supports that hold it.
void lay_on_block(Workpiece& piece) {
    const Eigen::VectorXd thickness = 2 * shell::half_thickness(piece.model, piece.state);
    Eigen::Matrix3Xd as_clamped = piece.mesh.positions;
    as_clamped.row(height).array() += 0.5 * piece.job.sheet.thickness;
    const findings::RigidMove move = findings::move_onto_block(
        piece.mesh,
        {piece.state.positions, piece.state.directors, thickness},
        findings::free_tilts(piece.job.blank),
        as_clamped
    );
    piece.state.positions = move.of_points(piece.state.positions);
    piece.state.directors = move.of_directors(piece.state.directors);
}

// How deep a loose part would lie in the block if this were put in its place at once.
double overlap(const equilibrium::Problem& problem, const Workpiece& piece) {
    const equilibrium::Shape shape = equilibrium::shape_of(piece.state, problem.node_axes);
    return equilibrium::deepest_penetration(problem, shape);
}

} // namespace

StepReport set_on_block(
    Workpiece& piece,
    const ContactChoice& contact,
    const Monitor& monitor,
    const StepKeeping& keeping
) {
    lay_on_block(piece);
    equilibrium::Problem problem = problem_of(piece);
    lead_web_down(piece, problem);
    add_rigid_supports(piece, problem.is_fixed);
    // The block comes from behind and below, as far away at first as a sprung part needs.
    const auto block = std::make_shared<tooling::MovedSurface>(
        std::make_shared<tooling::FormBlock>(
            piece.job.block.nose_radius, piece.job.block.wall_angle, piece.job.block.wall_angles
        ),
        tooling::ShapeAxes::Identity(),
        Eigen::Vector2d::Zero()
    );
    problem.contacts = {block_under(piece, block, contact)};
    const double away = overlap(problem, piece);

    equilibrium::Path path;
    path.set = [&block, away](equilibrium::Problem& now, double share) {
        now.guided_share = share;
        block->move_to(-(1 - share) * away * Eigen::Vector2d::Ones());
    };
    path.on_accepted = teller(monitor, job::StepKind::set_on_block, piece);
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
    return leave_held(piece, problem, report, driven_angle(piece));
}

} // namespace flangewright::process
