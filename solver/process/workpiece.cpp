#include "solver/process/workpiece.hpp"

#include "mesh/grid/blank_mesher.hpp"
#include "solver/findings/lip_development.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace flangewright::process {

namespace {

using shell::dof_per_node;

int n_round(double angle, const Fineness& fineness) {
    const double square_bends = std::max(angle / 1.5707963267948966, 0.25);
    return std::max(4, static_cast<int>(std::lround(fineness.n_round_nose * square_bends)));
}

grid::BlankGrid grid_for(const job::Job& job, const Fineness& fineness) {
    const double bend_width =
        job.block.wall_angle * (job.block.nose_radius + 0.5 * job.sheet.thickness);
    grid::BlankGrid blank;
    blank.line = job.blank.line;
    blank.web_width = job.blank.web_width;
    blank.flange_width = job.blank.flange_width;
    blank.flange_widths = job.blank.flange_widths;
    blank.openings = job.blank.openings;
    blank.n_round_hole = fineness.n_round_hole;
    const bool is_trimmed = std::ranges::find(job.steps, job::StepKind::trim) != job.steps.end();
    if (is_trimmed && job.blank.trim_allowance > 0) {
        blank.cut_width = job.blank.flange_width - job.blank.trim_allowance;
    }
    // A flange that ends within the bend is all bend.
    blank.bend_width = std::min(bend_width, job.blank.flange_width);
    blank.n_round_nose = n_round(job.block.wall_angle, fineness);
    const double spacing = blank.bend_width / blank.n_round_nose;
    if (job.return_bend) {
        blank.second_bend_begin = job.blank.lip_begin();
        blank.second_bend_width = findings::lip_bend_allowance(job);
        blank.n_round_second_nose = n_round(job.return_bend->angle, fineness);
    }
    blank.growth = fineness.growth;
    blank.widest_in_flange = fineness.widest_in_flange_ratio * spacing;
    blank.widest = fineness.widest_ratio * spacing;
    blank.largest_turn = fineness.largest_turn;
    blank.longest = fineness.longest > 0
        ? fineness.longest
        : std::max(fineness.longest_ratio * spacing, blank.line.length() / fineness.n_along_most);
    if (job.drive.front > 0 && fineness.longest <= 0) {
        constexpr double elements_in_front = 6;
        blank.longest = std::min(blank.longest, job.drive.front / elements_in_front);
    }
    return blank;
}

std::vector<Eigen::Matrix3d>
axes_along_line(const grid::SheetMesh& mesh, const outline::BendLine& line) {
    std::vector<Eigen::Matrix3d> axes(static_cast<std::size_t>(mesh.n_nodes()));
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        const outline::LineFrame frame = line.frame(mesh.station[node]);
        axes[static_cast<std::size_t>(node)] << frame.tangent, frame.outward,
            Eigen::Vector3d::UnitZ();
    }
    return axes;
}

// The last row of the flange before the lip's bend.
std::vector<int> nodes_before_lip(const Workpiece& piece) {
    const double begin = piece.job.blank.lip_begin();
    std::vector<int> nodes;
    for (const std::vector<int>& line : piece.mesh.station_lines) {
        const auto past = std::ranges::find_if(line, [&](int node) {
            return piece.mesh.distance[node] > begin + 1e-9;
        });
        nodes.push_back(*std::prev(past));
    }
    return nodes;
}

} // namespace

Fineness fineness_for(job::Accuracy accuracy) {
    constexpr double degree = 0.017453292519943295;
    // The web lift hangs on how finely the flange rolls under the wiper's corner.
    constexpr double widest_in_flange = 1;
    switch (accuracy) {
    case job::Accuracy::quick:
        return {
            .n_layers = 12,
            .n_round_nose = 10,
            .largest_turn = 4 * degree,
            .growth = 1.3,
            .longest_ratio = 7.5,
            .n_round_hole = 24};
    case job::Accuracy::normal:
        return {.widest_in_flange_ratio = widest_in_flange};
    case job::Accuracy::fine:
        break;
    }
    return {
        .n_layers = 16,
        .n_round_nose = 24,
        .largest_turn = 1.7 * degree,
        .growth = 1.15,
        .widest_in_flange_ratio = widest_in_flange,
        .n_along_most = 48,
        .n_round_hole = 48};
}

Result<Workpiece> make_workpiece(const job::Job& job, const Fineness& fineness, int n_threads) {
    Result<grid::SheetMesh> mesh = grid::mesh_blank(grid_for(job, fineness));
    if (!mesh) {
        return tl::unexpected(mesh.error());
    }
    Workpiece piece;
    piece.job = job;
    piece.n_threads = n_threads;
    piece.model.section = {
        {job.sheet.material.youngs_modulus, job.sheet.material.poisson_ratio},
        job.sheet.material.hardening,
        job.sheet.thickness,
        shell::gauss_layers(fineness.n_layers),
        job.sheet.material.back_stresses,
        job.sheet.material.yield,
        rolling_direction(job),
    };
    take_mesh(piece, std::move(*mesh));
    piece.state = shell::virgin_state(piece.model);
    return piece;
}

void take_mesh(Workpiece& piece, grid::SheetMesh mesh) {
    const outline::BendLine& line = piece.job.blank.line;
    piece.mesh = std::move(mesh);
    piece.node_axes = axes_along_line(piece.mesh, line);
    Eigen::Matrix3Xd positions = piece.mesh.positions;
    positions.row(2).array() += 0.5 * piece.job.sheet.thickness;
    Eigen::Matrix3Xd directors = Eigen::Matrix3Xd::Zero(3, piece.mesh.n_nodes());
    directors.row(2).setOnes();
    piece.model = shell::make_shell_model(
        std::move(piece.model.section),
        std::move(positions),
        std::move(directors),
        piece.mesh.quads,
        [&line](const Eigen::Vector3d& middle) {
            return line.frame(line.locate(middle).station).tangent;
        }
    );
    const equilibrium::Clock clock = piece.system ? piece.system->clock() : equilibrium::Clock{};
    piece.system = std::make_unique<equilibrium::SheetSystem>(piece.model, piece.n_threads);
    piece.system->clock() = clock;
    piece.solver = std::make_unique<equilibrium::LinearSolver>(piece.system->pattern());
    piece.held_by = equilibrium::DeadLoads::none(piece.model.n_nodes());
}

Eigen::Vector3d rolling_direction(const job::Job& job) {
    const outline::LineFrame middle = job.blank.line.frame(job.blank.middle_of_part());
    const double angle = job.sheet.rolling_direction;
    return std::cos(angle) * middle.tangent + std::sin(angle) * middle.outward;
}

std::vector<bool> symmetry_supports(const Workpiece& piece) {
    std::vector<bool> is_fixed(
        static_cast<std::size_t>(piece.model.n_nodes() * dof_per_node), false
    );
    const auto hold = [&](const std::vector<int>& nodes) {
        for (const int node : nodes) {
            is_fixed[static_cast<std::size_t>(node * dof_per_node)] = true; // along the line
            is_fixed[static_cast<std::size_t>(node * dof_per_node + 3)] =
                true; // director out of the plane
        }
    };
    if (piece.job.blank.start == job::EndKind::continues) {
        hold(piece.mesh.start_end);
    }
    if (piece.job.blank.end == job::EndKind::continues) {
        hold(piece.mesh.far_end);
    }
    return is_fixed;
}

equilibrium::Problem problem_of(const Workpiece& piece) {
    equilibrium::Problem problem;
    problem.model = &piece.model;
    problem.state = &piece.state;
    problem.node_axes = piece.node_axes;
    problem.is_fixed = symmetry_supports(piece);
    problem.loads = equilibrium::DeadLoads::none(piece.model.n_nodes());
    problem.half_thickness = shell::half_thickness(piece.model, piece.state);
    return problem;
}

double driven_angle(const Workpiece& piece) {
    double sum = 0;
    const std::vector<int> edge =
        piece.job.blank.has_lip ? nodes_before_lip(piece) : piece.mesh.free_edge;
    for (const int node : edge) {
        const Eigen::Vector3d director = piece.state.directors.col(node);
        const Eigen::Vector3d outward = piece.node_axes[static_cast<std::size_t>(node)].col(1);
        sum += std::atan2(director.dot(outward), director.z());
    }
    return sum / static_cast<double>(edge.size());
}

StepReport
report_of(const equilibrium::PathReport& path, double angle_reached, double penetration) {
    StepReport report;
    switch (path.end) {
    case equilibrium::PathEnd::done:
        report.reason = StopReason::done;
        break;
    case equilibrium::PathEnd::no_equilibrium:
        report.reason = StopReason::no_equilibrium;
        break;
    case equilibrium::PathEnd::stop_requested:
        report.reason = StopReason::stop_requested;
        break;
    }
    report.n_increments = path.n_increments;
    report.n_iterations = path.n_iterations;
    report.n_cutbacks = path.n_cutbacks;
    report.n_moved = path.n_moved;
    report.share_done = path.share_done;
    report.angle_reached = angle_reached;
    report.penetration = penetration;
    report.residual = path.residual;
    return report;
}

std::string name_of(job::StepKind kind) {
    switch (kind) {
    case job::StepKind::bend_down:
        return "bend-down";
    case job::StepKind::release:
        return "release";
    case job::StepKind::trim:
        return "trim";
    case job::StepKind::anneal:
        return "anneal";
    case job::StepKind::heat_treat:
        return "heat-treat";
    case job::StepKind::set_on_block:
        return "set-on-block";
    case job::StepKind::return_bend:
        break;
    }
    return "return-bend";
}

std::vector<findings::PartFindings> findings_of_steps(const JobResult& result) {
    std::vector<findings::PartFindings> found;
    found.reserve(result.steps.size());
    for (const StepResult& step : result.steps) {
        found.push_back(step.findings);
    }
    return found;
}

const grid::SheetMesh& mesh_of(const JobResult& result, std::size_t step) {
    const bool has_own = step < result.steps.size() && result.steps[step].mesh;
    return has_own ? *result.steps[step].mesh : result.mesh;
}

} // namespace flangewright::process
