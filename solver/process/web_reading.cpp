#include "solver/process/web_reading.hpp"

#include "solver/findings/part_findings.hpp"
#include "solver/findings/web_lift.hpp"
#include "solver/process/rigid_supports.hpp"
#include "solver/shell/recover.hpp"

namespace flangewright::process {

namespace {

using shell::dof_per_node;

// Everything answers elastically: what the zones do is asked for by a straight line.
shell::SheetState without_yielding(const shell::SheetState& state) {
    shell::SheetState stronger = state;
    constexpr double hardened = 1; // equivalent plastic strain
    for (material::PointMemory& point : stronger.points) {
        point.equivalent += hardened;
    }
    return stronger;
}

} // namespace

WebReading read_web(const Workpiece& piece) {
    const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
    const findings::WebLift lift = findings::set_on_block(
        piece.mesh, findings::shape_of(piece.state, fields), findings::free_tilts(piece.job.blank)
    );
    return {lift.web_nodes, lift.gaps, lift.plane.normal, lift.largest};
}

Eigen::MatrixXd
web_influence(const Workpiece& piece, const WebReading& web, const Eigen::MatrixXd& shares) {
    constexpr double small = 1e-5; // of stretch: well within what is elastic
    equilibrium::Problem problem = problem_of(piece);
    add_rigid_supports(piece, problem.is_fixed);
    const shell::SheetState present = without_yielding(piece.state);
    const equilibrium::Shape shape = equilibrium::shape_of(piece.state, piece.node_axes);
    problem.state = &present;
    const Eigen::VectorXd before = piece.system->balance(problem, shape, true).residual;
    if (!piece.solver->factorise(piece.system->stiffness())) {
        return {};
    }
    Eigen::MatrixXd influence(static_cast<Eigen::Index>(web.nodes.size()), shares.cols());
    for (Eigen::Index zone = 0; zone < shares.cols(); ++zone) {
        shell::SheetState worked = present;
        add_edge_strain(piece.model, small * shares.col(zone), worked);
        problem.state = &worked;
        Eigen::VectorXd force = before - piece.system->balance(problem, shape, false).residual;
        for (Eigen::Index dof = 0; dof < force.size(); ++dof) {
            if (problem.is_fixed[static_cast<std::size_t>(dof)]) {
                force[dof] = 0;
            }
        }
        const Eigen::VectorXd move = piece.solver->solve(force) / small;
        for (std::size_t i = 0; i < web.nodes.size(); ++i) {
            const int node = web.nodes[i];
            const Eigen::Vector3d moved = piece.node_axes[static_cast<std::size_t>(node)]
                * move.segment<3>(node * dof_per_node);
            influence(static_cast<Eigen::Index>(i), zone) = web.normal.dot(moved);
        }
    }
    return influence;
}

FlatFit fit_of(const Workpiece& piece, const WebReading& web) {
    const findings::TiltDirections tilts = findings::free_tilts(piece.job.blank);
    const auto n = static_cast<Eigen::Index>(web.nodes.size());
    FlatFit fit;
    fit.heights = web.gaps;
    fit.weight.resize(n);
    fit.planes = Eigen::MatrixXd::Ones(n, 1 + static_cast<Eigen::Index>(tilts.size()));
    for (Eigen::Index i = 0; i < n; ++i) {
        const int node = web.nodes[static_cast<std::size_t>(i)];
        fit.weight[i] = piece.model.node_area[node];
        for (std::size_t tilt = 0; tilt < tilts.size(); ++tilt) {
            fit.planes(i, static_cast<Eigen::Index>(tilt) + 1) =
                tilts[tilt].dot(piece.state.positions.col(node));
        }
    }
    return fit;
}

} // namespace flangewright::process
