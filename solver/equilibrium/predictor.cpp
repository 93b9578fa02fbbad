#include "solver/equilibrium/predictor.hpp"

#include "solver/equilibrium/energy_slope.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <limits>

namespace flangewright::equilibrium {

namespace {

using shell::dof_per_node;

Eigen::Vector3d rotation_between(const Eigen::Vector3d& from, const Eigen::Vector3d& to) {
    const Eigen::Vector3d axis = from.cross(to);
    const double sine = axis.norm();
    if (sine < 1e-14) {
        return Eigen::Vector3d::Zero();
    }
    return std::atan2(sine, from.dot(to)) / sine * axis;
}

Eigen::Vector3d rotated(const Eigen::Vector3d& vector, const Eigen::Vector3d& rotation) {
    const double angle = rotation.norm();
    if (angle < 1e-14) {
        return vector;
    }
    return Eigen::AngleAxisd(angle, rotation / angle) * vector;
}

// Per degree of freedom. A turning flange must not be carried on along its old direction: that
// would stretch it, so each node's move is turned as its director has turned.
Eigen::VectorXd
carried_on(const Shape& shape, const Problem& problem, const Increment& last, double share) {
    const double ratio = share / last.share;
    Eigen::VectorXd change(shape.positions.cols() * dof_per_node);
    for (Eigen::Index node = 0; node < shape.positions.cols(); ++node) {
        const auto at = static_cast<std::size_t>(node);
        const Eigen::Vector3d turn = last.turns.col(node);
        const Eigen::Vector3d move =
            ratio * rotated(last.moves.col(node), 0.5 * (1 + ratio) * turn);
        const Eigen::Vector3d director = shape.directors.col(node);
        auto part = change.segment<5>(node * dof_per_node);
        part.head<3>() = problem.node_axes[at].transpose() * move;
        part.tail<2>() = shape.rotation_bases[at].transpose() * (ratio * turn).cross(director);
    }
    for (Eigen::Index i = 0; i < change.size(); ++i) {
        if (problem.is_fixed[static_cast<std::size_t>(i)]) {
            change[i] = 0;
        }
    }
    return change;
}

// Looks along `change` for the place where the energy's slope vanishes: the tools' push and the
// sheet's resistance are even there.
class PushedPart {
public:
    PushedPart(
        SheetSystem& system,
        const Problem& problem,
        const Shape& from,
        const Eigen::VectorXd& change
    )
        : system_(system), problem_(problem), from_(from), change_(change) {}

    /// Tries one place.
    void look_at(double share) {
        Shape there = from_;
        move_shape(there, problem_.node_axes, share * change_);
        const Balance balance = system_.balance(problem_, there, false);
        const double slope = balance.is_good ? change_.dot(balance.residual)
                                             : std::numeric_limits<double>::infinity();
        if (std::abs(slope) < std::abs(best_slope_)) {
            best_slope_ = slope;
            best_ = std::move(there);
        }
        if (slope < 0) {
            pushed_ = {share, slope};
        } else {
            past_ = {share, slope};
        }
    }
    [[nodiscard]] bool is_pushed_at_last() const { return pushed_.share == 1; }
    [[nodiscard]] bool is_even(double enough) const {
        return std::isfinite(best_slope_) && std::abs(best_slope_) <= enough;
    }
    [[nodiscard]] double slope_past() const { return past_.slope; }
    [[nodiscard]] double next_place(double step_back) const {
        if (pushed_.slope == 0 || !std::isfinite(past_.slope)) {
            return std::max(0.5 * past_.share, past_.share - step_back);
        }
        return level_between(pushed_, past_);
    }
    [[nodiscard]] const Shape& best() const { return best_; }

private:
    SheetSystem& system_;
    const Problem& problem_;
    const Shape& from_;
    const Eigen::VectorXd& change_;
    SlopeAt pushed_; // the tools still push
    SlopeAt past_{1, 0}; // the sheet has gone too far
    double best_slope_ = std::numeric_limits<double>::infinity();
    Shape best_ = from_;
};

} // namespace

Increment increment_between(const shell::SheetState& before, const Shape& after, double share) {
    Increment increment;
    increment.moves = after.positions - before.positions;
    increment.turns.resize(3, before.directors.cols());
    for (Eigen::Index node = 0; node < before.directors.cols(); ++node) {
        increment.turns.col(node) =
            rotation_between(before.directors.col(node), after.directors.col(node));
    }
    increment.share = share;
    return increment;
}

void carry_on(
    SheetSystem& system, const Problem& problem, Shape& shape, const Increment& last, double share
) {
    const Eigen::VectorXd change = carried_on(shape, problem, last, share);
    if (problem.contacts.empty()) {
        move_shape(shape, problem.node_axes, change);
        return;
    }
    constexpr int n_places_most = 5;
    constexpr double slope_left = 0.3; // part of the slope at the end that is good enough
    double step_back = 0.05;
    PushedPart part(system, problem, shape, change);
    part.look_at(1);
    const double enough = slope_left * part.slope_past();
    for (int i = 1; i < n_places_most && !part.is_pushed_at_last() && !part.is_even(enough); ++i) {
        part.look_at(part.next_place(step_back));
        step_back *= 2;
    }
    shape = part.best();
}

} // namespace flangewright::equilibrium
