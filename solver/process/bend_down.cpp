#include "solver/process/bend_down.hpp"

#include "solver/tooling/surface/form_block.hpp"
#include "solver/tooling/surface/leaf.hpp"
#include "solver/tooling/surface/wiper.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <numbers>

namespace flangewright::process {

namespace {

using shell::dof_per_node;

// Looser than at the end: an increment's left-over forces do not add up, since the next one
// balances all forces anew. From 1e-4 to this moves springback by less than 0.2 % in the solid
// sections.
constexpr double tolerance_on_the_way = 1e-3;

constexpr double square = 0.5 * std::numbers::pi;
constexpr double angle_tolerance = 0.0017; // rad, a tenth of a degree

// The moving tool of a job and how it moves over the step.
struct MovingTool {
    std::shared_ptr<tooling::RigidSurface> surface;
    std::function<void(double share)> move;
    std::function<bool(const Workpiece&)> has_arrived;
    double angle_most = 0; ///< at which it is stopped, rad
    double ramp = 0;
};

MovingTool make_wiper(const job::Job& job, const ContactChoice& contact) {
    const double t = job.sheet.thickness;
    const double face = job.block.nose_radius + job.drive.clearance * t;
    const double radius = job.drive.corner_radius;
    auto wiper = std::make_shared<tooling::Wiper>(face, radius);
    // Down until the corner has passed the flange's edge, wherever stretching leaves it.
    const double travel = job.blank.flange_width + radius + t;
    return {
        wiper,
        [wiper, t, travel](double share) { wiper->set_underside(t - share * (travel + t)); },
        [wiper](const Workpiece& piece) {
            double lowest = 0;
            for (const int node : piece.mesh.free_edge) {
                lowest = std::min(lowest, piece.state.positions(2, node));
            }
            return lowest > wiper->underside() + wiper->corner_radius();
        },
        // A wiper makes the flange square by going past its edge, whatever the angle then is.
        job.drive.angle < square ? job.drive.angle : 2 * square,
        contact.ramp,
    };
}

MovingTool make_leaf(const job::Job& job, const ContactChoice& contact) {
    const double reach = job.block.nose_radius + job.drive.clearance * job.sheet.thickness;
    auto leaf = std::make_shared<tooling::Leaf>(job.block.nose_radius, reach);
    const double angle = job.drive.angle;
    return {
        leaf,
        [leaf, angle](double share) { leaf->set_angle(share * angle); },
        [](const Workpiece&) { return false; },
        2 * square, // its own motion ends there
        contact.flat_ramp,
    };
}

// Web under the backing stays in its plane; the far edge of the web does not move.
void hold_web(const Workpiece& piece, std::vector<bool>& is_fixed) {
    constexpr double rounding = 1e-9;
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        if (piece.mesh.distance[node] <= rounding - piece.job.block.backing_setback) {
            is_fixed[static_cast<std::size_t>(node * dof_per_node + 2)] = true;
        }
    }
    for (const int node : piece.mesh.web_edge) {
        is_fixed[static_cast<std::size_t>(node * dof_per_node + 1)] = true;
    }
    if (piece.job.blank.start == job::EndKind::free && piece.job.blank.end == job::EndKind::free) {
        const int middle = piece.mesh.web_edge[piece.mesh.web_edge.size() / 2];
        is_fixed[static_cast<std::size_t>(middle * dof_per_node)] = true;
    }
}

std::vector<tooling::SweptContact>
make_contacts(const Workpiece& piece, const MovingTool& tool, const ContactChoice& contact) {
    const job::Job& job = piece.job;
    const double stiffness =
        contact.stiffness_factor * job.sheet.material.youngs_modulus / job.sheet.thickness;
    const double stick =
        contact.stick_factor * job.sheet.material.youngs_modulus / job.sheet.thickness;
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
            std::make_shared<tooling::FormBlock>(job.block.nose_radius, job.block.wall_angle),
            {stiffness, contact.ramp},
            tooling::Face::block,
            unclamped,
            job.block.friction,
            stick,
        },
        {job.blank.line,
         tool.surface,
         {stiffness, tool.ramp},
         tooling::Face::outer,
         flange,
         job.block.friction,
         stick},
    };
}

// What tools and clamp do to the sheet: contact forces, and reactions where the clamp holds.
equilibrium::DeadLoads holding_forces(
    Workpiece& piece, const equilibrium::Problem& problem, const std::vector<bool>& symmetry
) {
    const equilibrium::Shape shape = equilibrium::shape_of(piece.state, piece.node_axes);
    equilibrium::DeadLoads loads = equilibrium::tool_forces(problem, shape);
    const equilibrium::Balance balance = piece.system->balance(problem, shape, false);
    for (int node = 0; node < piece.model.n_nodes(); ++node) {
        for (int k = 0; k < 3; ++k) {
            const int dof = node * dof_per_node + k;
            const auto at = static_cast<std::size_t>(dof);
            if (problem.is_fixed[at] && !symmetry[at]) {
                loads.on_positions.col(node) +=
                    balance.residual[dof] * piece.node_axes[static_cast<std::size_t>(node)].col(k);
            }
        }
    }
    return loads;
}

// Shortens the steps so that the flange comes to its angle and not past it.
class AngleWatch {
public:
    AngleWatch(const Workpiece& piece, double angle_most, double share)
        : piece_(piece), angle_most_(angle_most), angle_(driven_angle(piece)), share_(share) {}

    [[nodiscard]] bool has_arrived() const {
        return driven_angle(piece_) > angle_most_ - angle_tolerance;
    }
    /// Told after each increment.
    double step_most(double share) {
        const double angle = driven_angle(piece_);
        const double slope = (angle - angle_) / (share - share_);
        angle_ = angle;
        share_ = share;
        return slope > 0 ? (angle_most_ - angle) / slope : 1;
    }

private:
    const Workpiece& piece_;
    double angle_most_;
    double angle_;
    double share_;
};

class Narrator {
public:
    Narrator(const Monitor& monitor, double target) : monitor_(monitor), target_(target) {}

    void tell(const equilibrium::PathReport& path, double angle) const {
        const double elapsed =
            std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
        const double share = std::clamp(angle / target_, 0.0, 1.0);
        monitor_.report({
            .step = name_of(job::StepKind::bend_down),
            .share_done = share,
            .flange_angle = angle,
            .n_increments = path.n_increments,
            .n_iterations = path.n_iterations,
            .seconds_left = share > 0.02 ? elapsed * (1 - share) / share : -1,
        });
    }

private:
    const Monitor& monitor_;
    double target_;
    std::chrono::steady_clock::time_point begin_ = std::chrono::steady_clock::now();
};

} // namespace

StepReport bend_down(
    Workpiece& piece,
    const ContactChoice& contact,
    const Monitor& monitor,
    const ShapeListener& listener,
    const StepKeeping& keeping
) {
    const bool is_wiper = piece.job.drive.kind == job::DriveKind::wiper;
    const MovingTool tool =
        is_wiper ? make_wiper(piece.job, contact) : make_leaf(piece.job, contact);
    const std::vector<bool> symmetry = symmetry_supports(piece);
    equilibrium::Problem problem;
    problem.model = &piece.model;
    problem.state = &piece.state;
    problem.node_axes = piece.node_axes;
    problem.contacts = make_contacts(piece, tool, contact);
    problem.loads = equilibrium::DeadLoads::none(piece.model.n_nodes());
    problem.is_fixed = symmetry;
    hold_web(piece, problem.is_fixed);
    problem.half_thickness = shell::half_thickness(piece.model, piece.state);

    std::optional<AngleWatch> watch; // begins where the step does or is taken up
    const Narrator narrator(monitor, piece.job.drive.angle);
    equilibrium::Path path;
    path.set = [&tool](equilibrium::Problem&, double share) { tool.move(share); };
    path.on_accepted = [&](const equilibrium::PathReport& report) {
        narrator.tell(report, driven_angle(piece));
        if (listener) {
            listener(piece, report.share_done);
        }
        return !tool.has_arrived(piece) && !watch->has_arrived();
    };
    path.may_move = true;
    path.step_most = [&watch](const equilibrium::PathReport& report) {
        return watch->step_most(report.share_done);
    };
    take_up(keeping, piece, path);
    watch.emplace(piece, tool.angle_most, path.begin_from ? path.begin_from->report.share_done : 0);
    equilibrium::PathLimits limits;
    limits.first_step = 0.0005; // a hard first touch costs twenty iterations, a soft one a few
    limits.newton.tolerance = tolerance_on_the_way;
    const equilibrium::Balancer balancer{*piece.system, *piece.solver, piece.n_threads};
    equilibrium::PathReport report =
        equilibrium::follow_path(balancer, problem, piece.state, path, limits, monitor.stop);
    if (report.end == equilibrium::PathEnd::done) {
        limits.newton.tolerance = equilibrium::NewtonLimits{}.tolerance;
        equilibrium::settle(balancer, problem, piece.state, limits.newton, report);
    }
    problem.half_thickness = shell::half_thickness(piece.model, piece.state);
    piece.held_by = holding_forces(piece, problem, symmetry);
    const equilibrium::Shape shape = equilibrium::shape_of(piece.state, piece.node_axes);
    return report_of(report, driven_angle(piece), equilibrium::deepest_penetration(problem, shape));
}

} // namespace flangewright::process
