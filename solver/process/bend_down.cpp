#include "solver/process/bend_down.hpp"

#include "solver/process/drive_passes.hpp"
#include "solver/tooling/surface/following_tool.hpp"
#include "solver/tooling/surface/form_block.hpp"
#include "solver/tooling/surface/leaf.hpp"

#include <algorithm>
#include <numbers>
#include <utility>

namespace flangewright::process {

namespace {

using shell::dof_per_node;

// The moving tool of a job and how it moves over the step.
struct MovingTool {
    std::shared_ptr<const tooling::DrivenSurface> surface;
    std::function<void(double share)> move;
    std::function<bool(const Workpiece&)> has_arrived;
    double angle_most = 0; ///< at which it is stopped, rad
    double ramp = 0;
    std::shared_ptr<const tooling::RigidSurface> along = {}; ///< the same, where it does not move
                                                             ///< alike along the line; or none
    bool is_worked = false; ///< along the line, behind a front

    [[nodiscard]] std::shared_ptr<const tooling::RigidSurface> as_it_moves() const {
        return along ? along : surface;
    }
};

double lowest_of_edge(const Workpiece& piece) {
    double lowest = 0;
    for (const int node : piece.mesh.free_edge) {
        lowest = std::min(lowest, piece.state.positions(2, node));
    }
    return lowest;
}

MovingTool wiper_of(const job::Job& job, const ContactChoice& contact) {
    const WiperStroke stroke = make_wiper(
        job.block.nose_radius, job.drive, job.sheet.thickness, job.blank.width_with_tabs()
    );
    return {
        stroke.wiper,
        [stroke](double share) { stroke.move_to(share); },
        [stroke](const Workpiece& piece) { return stroke.has_passed(lowest_of_edge(piece)); },
        wiper_angle_most(job.drive.angle),
        contact.ramp,
    };
}

// At each station it goes as far as the wall there.
MovingTool following_leaf(
    const job::Job& job, std::shared_ptr<tooling::Leaf> leaf, const ContactChoice& contact
) {
    const auto along = std::make_shared<tooling::FollowingTool>(leaf, job.block.wall_angles);
    MovingTool tool{
        std::move(leaf),
        [along](double share) { along->move_to(share); },
        [](const Workpiece&) { return false; },
        std::numbers::pi, // its own motion ends there
        contact.flat_ramp,
    };
    tool.along = along;
    return tool;
}

MovingTool leaf_of(const job::Job& job, const ContactChoice& contact) {
    const double reach = job.block.nose_radius + job.drive.clearance * job.sheet.thickness;
    auto leaf = std::make_shared<tooling::Leaf>(job.block.nose_radius, reach);
    const double angle = job.drive.angle;
    if (!job.block.wall_angles.is_empty()) {
        return following_leaf(job, std::move(leaf), contact);
    }
    return {
        leaf,
        [leaf, angle](double share) { leaf->set_angle(share * angle); },
        [](const Workpiece&) { return false; },
        std::numbers::pi, // its own motion ends there
        contact.flat_ramp,
    };
}

MovingTool tool_of(const job::Job& job, const ContactChoice& contact) {
    const bool is_wiper = job.drive.kind == job::DriveKind::wiper;
    MovingTool tool = is_wiper ? wiper_of(job, contact) : leaf_of(job, contact);
    if (job.drive.order != job::DriveOrder::evenly) {
        const auto along =
            std::make_shared<tooling::WorkedTool>(tool.surface, stretch_of(job), pass_strokes(job));
        tool.move = [along](double share) { along->move_to(share); };
        tool.along = along;
        tool.is_worked = true;
    }
    return tool;
}

// Pins hold their holes where they are in the plane of the web.
void hold_pins(const Workpiece& piece, std::vector<bool>& is_fixed) {
    for (const grid::Rim& rim : piece.mesh.rims) {
        const bool is_pinned =
            rim.kind == grid::Rim::Kind::hole && piece.job.blank.openings.holes[rim.number].is_pin;
        for (const int node : is_pinned ? rim.nodes : std::vector<int>{}) {
            is_fixed[static_cast<std::size_t>(node * dof_per_node)] = true;
            is_fixed[static_cast<std::size_t>(node * dof_per_node + 1)] = true;
        }
    }
}

// Web under the backing stays in its plane; the far edge of the web, or the pins, do not move.
void hold_web(const Workpiece& piece, std::vector<bool>& is_fixed) {
    constexpr double rounding = 1e-9;
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        if (piece.mesh.distance[node] <= rounding - piece.job.block.backing_setback) {
            is_fixed[static_cast<std::size_t>(node * dof_per_node + 2)] = true;
        }
    }
    if (piece.job.blank.openings.has_pins()) {
        hold_pins(piece, is_fixed);
        return;
    }
    for (const int node : piece.mesh.web_edge) {
        is_fixed[static_cast<std::size_t>(node * dof_per_node + 1)] = true;
    }
    if (piece.job.blank.start == job::EndKind::free && piece.job.blank.end == job::EndKind::free) {
        const int middle = piece.mesh.web_edge[piece.mesh.web_edge.size() / 2];
        is_fixed[static_cast<std::size_t>(middle * dof_per_node)] = true;
    }
}

std::shared_ptr<const tooling::RigidSurface> form_block(const job::Block& block) {
    return std::make_shared<tooling::FormBlock>(
        block.nose_radius, block.wall_angle, block.wall_angles
    );
}

std::vector<tooling::SweptContact>
make_contacts(const Workpiece& piece, const MovingTool& tool, const ContactChoice& contact) {
    const job::Job& job = piece.job;
    const double stiffness = contact_stiffness(job.sheet, contact.stiffness_factor);
    const double stick = contact_stiffness(job.sheet, contact.stick_factor);
    std::vector<int> unclamped;
    std::vector<int> flange;
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        if (piece.mesh.distance[node] > 1e-9 - job.block.backing_setback) {
            unclamped.push_back(node);
        }
        if (piece.mesh.distance[node] > 1e-9) {
            flange.push_back(node);
        }
    }
    return {
        {
            job.blank.line,
            form_block(job.block),
            {stiffness, contact.ramp},
            tooling::Face::block,
            unclamped,
            job.block.friction,
            stick,
        },
        {job.blank.line,
         tool.as_it_moves(),
         {stiffness, tool.ramp},
         tooling::Face::outer,
         flange,
         job.block.friction,
         stick},
    };
}

// As driven_angle() takes the mean: what it comes to, for the progress told.
double mean_angle_wanted(const Workpiece& piece) {
    const job::Job& job = piece.job;
    if (job.drive.kind == job::DriveKind::wiper || job.block.wall_angles.is_empty()) {
        return job.drive.angle;
    }
    double sum = 0;
    for (const int node : piece.mesh.free_edge) {
        sum += job.block.wall_angle_at(piece.mesh.station[node]);
    }
    return sum / static_cast<double>(piece.mesh.free_edge.size());
}

} // namespace

StepReport bend_down(
    Workpiece& piece,
    const ContactChoice& contact,
    const Monitor& monitor,
    const ShapeListener& listener,
    const StepKeeping& keeping
) {
    const MovingTool tool = tool_of(piece.job, contact);
    equilibrium::Problem problem = problem_of(piece);
    problem.contacts = make_contacts(piece, tool, contact);
    hold_web(piece, problem.is_fixed);
    const Fold fold{
        job::StepKind::bend_down,
        [&tool](equilibrium::Problem&, double share) { tool.move(share); },
        driven_angle,
        tool.has_arrived,
        mean_angle_wanted(piece),
        tool.angle_most,
        has_passes(piece.job.drive) ? pass_ends(piece.job) : std::vector<double>{},
        tool.is_worked};
    return follow_fold(piece, problem, fold, monitor, listener, keeping);
}

} // namespace flangewright::process
