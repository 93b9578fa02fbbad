#include "solver/process/fold.hpp"

#include <algorithm>
#include <chrono>
#include <numbers>
#include <optional>

namespace flangewright::process {

namespace {

using shell::dof_per_node;

// Looser than at the end: an increment's left-over forces do not add up, since the next one
// balances all forces anew. From 1e-4 to this moves springback by less than 0.2 % in the solid
// sections.
constexpr double tolerance_on_the_way = 1e-3;

constexpr double angle_tolerance = 0.0017; // rad, a tenth of a degree

// What tools and clamp do to the sheet: contact forces, and reactions where the clamp holds.
equilibrium::DeadLoads holding_forces(
    Workpiece& piece, const equilibrium::Problem& problem, const std::vector<bool>& symmetry
) {
    const equilibrium::Shape shape = equilibrium::shape_of(piece.state, problem.node_axes);
    equilibrium::DeadLoads loads = equilibrium::tool_forces(problem, shape);
    const equilibrium::Balance balance = piece.system->balance(problem, shape, false);
    for (int node = 0; node < piece.model.n_nodes(); ++node) {
        for (int k = 0; k < 3; ++k) {
            const int dof = node * dof_per_node + k;
            const auto at = static_cast<std::size_t>(dof);
            if (problem.is_fixed[at] && !symmetry[at]) {
                loads.on_positions.col(node) += balance.residual[dof]
                    * problem.node_axes[static_cast<std::size_t>(node)].col(k);
            }
        }
    }
    return loads;
}

// Shortens the steps so that the flange comes to its angle and not past it.
class AngleWatch {
public:
    AngleWatch(const Workpiece& piece, const Fold& fold, double share)
        : piece_(piece), fold_(fold), angle_(fold.angle(piece)), share_(share) {}

    [[nodiscard]] bool has_arrived() const {
        return !fold_.runs_to_end
            && (fold_.has_arrived(piece_)
                || fold_.angle(piece_) > fold_.angle_most - angle_tolerance);
    }
    /// Told after each increment.
    double step_most(double share) {
        const double angle = fold_.angle(piece_);
        const double slope = (angle - angle_) / (share - share_);
        angle_ = angle;
        share_ = share;
        return slope > 0 && !fold_.runs_to_end ? (fold_.angle_most - angle) / slope : 1;
    }

private:
    const Workpiece& piece_;
    const Fold& fold_;
    double angle_;
    double share_;
};

class Narrator {
public:
    Narrator(const Monitor& monitor, const Fold& fold) : monitor_(monitor), fold_(fold) {}

    void tell(const equilibrium::PathReport& path, double angle) const {
        const double elapsed =
            std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
        const double share =
            fold_.runs_to_end ? path.share_done : std::clamp(angle / fold_.target, 0.0, 1.0);
        monitor_.report({
            .step = name_of(fold_.kind),
            .share_done = share,
            .flange_angle = angle,
            .n_increments = path.n_increments,
            .n_iterations = path.n_iterations,
            .seconds_left = share > 0.02 ? elapsed * (1 - share) / share : -1,
        });
    }

private:
    const Monitor& monitor_;
    const Fold& fold_;
    std::chrono::steady_clock::time_point begin_ = std::chrono::steady_clock::now();
};

} // namespace

WiperStroke
make_wiper(double nose_radius, const job::Drive& drive, double thickness, double width) {
    const double face = nose_radius + drive.clearance * thickness;
    const double radius = drive.corner_radius;
    return {std::make_shared<tooling::Wiper>(face, radius), thickness, width + radius + thickness};
}

double wiper_angle_most(double angle_wanted) {
    constexpr double square = 0.5 * std::numbers::pi;
    return angle_wanted < square ? angle_wanted : 2 * square;
}

double contact_stiffness(const job::Sheet& sheet, double factor) {
    return factor * sheet.material.youngs_modulus / sheet.thickness;
}

StepReport leave_held(
    Workpiece& piece,
    equilibrium::Problem& problem,
    const equilibrium::PathReport& path,
    double angle_reached
) {
    problem.half_thickness = shell::half_thickness(piece.model, piece.state);
    piece.held_by = holding_forces(piece, problem, symmetry_supports(piece));
    const equilibrium::Shape shape = equilibrium::shape_of(piece.state, problem.node_axes);
    return report_of(path, angle_reached, equilibrium::deepest_penetration(problem, shape));
}

StepReport follow_fold(
    Workpiece& piece,
    equilibrium::Problem& problem,
    const Fold& fold,
    const Monitor& monitor,
    const ShapeListener& listener,
    const StepKeeping& keeping
) {
    std::optional<AngleWatch> watch; // begins where the step does or is taken up
    const Narrator narrator(monitor, fold);
    equilibrium::Path path;
    path.set = fold.set;
    path.stops = fold.stops;
    path.on_accepted = [&](const equilibrium::PathReport& report) {
        narrator.tell(report, fold.angle(piece));
        if (listener) {
            listener(piece, report.share_done);
        }
        return !watch->has_arrived();
    };
    path.may_move = true;
    path.step_most = [&watch](const equilibrium::PathReport& report) {
        return watch->step_most(report.share_done);
    };
    take_up(keeping, piece, path);
    watch.emplace(piece, fold, path.begin_from ? path.begin_from->report.share_done : 0);
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
    return leave_held(piece, problem, report, fold.angle(piece));
}

} // namespace flangewright::process
