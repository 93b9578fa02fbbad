#include "tests/support/load_path.hpp"

#include <algorithm>
#include <limits>

namespace flangewright::support {

using shell::dof_per_node;

namespace {

// Displacements only: directors follow.
Eigen::VectorXd displacements_of(Eigen::VectorXd step) {
    for (Eigen::Index node = 0; node < step.size() / dof_per_node; ++node) {
        step.segment<2>(node * dof_per_node + 3).setZero();
    }
    return step;
}

void clear_fixed(Eigen::VectorXd& vector, const std::vector<bool>& is_fixed) {
    for (Eigen::Index i = 0; i < vector.size(); ++i) {
        if (is_fixed[static_cast<std::size_t>(i)]) {
            vector[i] = 0;
        }
    }
}

} // namespace

LoadPath::LoadPath(
    SheetTrial& trial,
    equilibrium::DeadLoads full,
    int node,
    const Eigen::Vector3d& direction,
    LoadPathLimits limits
)
    : trial_(trial), full_(std::move(full)), node_(node), direction_(direction), limits_(limits) {
    const Eigen::Index n_dof = static_cast<Eigen::Index>(trial.model.n_nodes()) * dof_per_node;
    by_unit_load_ = Eigen::VectorXd::Zero(n_dof);
    watched_ = Eigen::VectorXd::Zero(n_dof);
    last_ = Eigen::VectorXd::Zero(n_dof);
    for (int n = 0; n < trial.model.n_nodes(); ++n) {
        by_unit_load_.segment<3>(n * dof_per_node) =
            trial.problem.node_axes[static_cast<std::size_t>(n)].transpose()
            * full_.on_positions.col(n);
    }
    watched_.segment<3>(node * dof_per_node) =
        trial.problem.node_axes[static_cast<std::size_t>(node)].transpose() * direction;
    clear_fixed(by_unit_load_, trial.problem.is_fixed);
    clear_fixed(watched_, trial.problem.is_fixed);
}

PathPoint LoadPath::now() const {
    const Eigen::Vector3d moved =
        trial_.state.positions.col(node_) - trial_.model.start_positions.col(node_);
    return {load_, moved.dot(direction_)};
}

bool LoadPath::move_to(double displacement, int n_steps) {
    constexpr double smallest_share = 1.0 / 64;
    const double whole = (displacement - now().displacement) / n_steps;
    double step = whole;
    while (std::abs(displacement - now().displacement) > 1e-9 * std::abs(whole)) {
        const double left = displacement - now().displacement;
        if (advance(&watched_, std::abs(step) < std::abs(left) ? step : left)) {
            step = std::abs(step) < std::abs(whole) ? 2 * step : whole;
        } else if (std::abs(step) > smallest_share * std::abs(whole)) {
            step *= 0.5;
        } else {
            return false;
        }
    }
    return true;
}

bool LoadPath::go_on(double length) {
    return advance(nullptr, length);
}

// Unit direction in which the load moves the sheet, the way it was going.
Eigen::VectorXd LoadPath::along_path(const Eigen::VectorXd& by_load) const {
    const Eigen::VectorXd heading = displacements_of(by_load).normalized();
    return heading.dot(last_) < 0 ? Eigen::VectorXd(-heading) : heading;
}

void LoadPath::limit_turn(Eigen::VectorXd& step) const {
    double largest = limits_.largest_turn;
    for (Eigen::Index node = 0; node < step.size() / dof_per_node; ++node) {
        largest = std::max(largest, step.segment<2>(node * dof_per_node + 3).norm());
    }
    step *= limits_.largest_turn / largest;
}

bool LoadPath::accept(const equilibrium::Shape& shape) {
    shell::SheetState next = trial_.state;
    next.positions = shape.positions;
    next.directors = shape.directors;
    if (!shell::remember_shape(trial_.model, next, 1)) {
        return false;
    }
    trial_.state = std::move(next);
    return true;
}

bool LoadPath::advance(const Eigen::VectorXd* constraint, double goal) {
    SheetTrial& t = trial_;
    t.problem.half_thickness = shell::half_thickness(t.model, t.state);
    equilibrium::Shape shape = equilibrium::shape_of(t.state, t.problem.node_axes);
    Eigen::VectorXd moved = Eigen::VectorXd::Zero(by_unit_load_.size());
    Eigen::VectorXd heading = constraint != nullptr ? *constraint : Eigen::VectorXd();
    double load = load_;
    for (int iteration = 0; iteration <= limits_.n_iterations_most; ++iteration) {
        t.problem.loads = equilibrium::DeadLoads::none(t.model.n_nodes());
        t.problem.loads.add(full_, load);
        const equilibrium::Balance balance = t.system.balance(t.problem, shape, true);
        if (!balance.is_good) {
            return false;
        }
        if (iteration > 0 && balance.norm <= limits_.tolerance * balance.scale
            && std::abs(goal - heading.dot(moved)) <= 1e-9 * std::abs(goal)) {
            load_ = load;
            last_ = displacements_of(moved);
            return accept(shape);
        }
        Eigen::VectorXd right_side = -balance.residual;
        clear_fixed(right_side, t.problem.is_fixed);
        if (!t.solver.factorise(t.system.stiffness())) {
            return false;
        }
        const Eigen::VectorXd by_residual = t.solver.solve(right_side);
        const Eigen::VectorXd by_load = t.solver.solve(by_unit_load_);
        if (heading.size() == 0) {
            heading = along_path(by_load);
        }
        const double load_change =
            (goal - heading.dot(moved) - heading.dot(by_residual)) / heading.dot(by_load);
        Eigen::VectorXd step = by_residual + load_change * by_load;
        if (!step.allFinite()) {
            return false;
        }
        const double full_size = step.norm();
        limit_turn(step);
        load += full_size > 0 ? load_change * step.norm() / full_size : 0;
        moved += step;
        equilibrium::move_shape(shape, t.problem.node_axes, step);
    }
    return false;
}

double distance_to_path(
    const std::vector<PathPoint>& path, const PathPoint& point, const PathPoint& scale
) {
    const auto scaled = [&](const PathPoint& p) {
        return Eigen::Vector2d(p.load / scale.load, p.displacement / scale.displacement);
    };
    const Eigen::Vector2d at = scaled(point);
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 1; i < path.size(); ++i) {
        const Eigen::Vector2d from = scaled(path[i - 1]);
        const Eigen::Vector2d chord = scaled(path[i]) - from;
        const double share =
            std::clamp((at - from).dot(chord) / std::max(chord.squaredNorm(), 1e-300), 0.0, 1.0);
        least = std::min(least, (at - from - share * chord).norm());
    }
    return least;
}

} // namespace flangewright::support
