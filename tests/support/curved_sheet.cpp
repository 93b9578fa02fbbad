#include "tests/support/curved_sheet.hpp"

#include "mesh/base/check.hpp"

#include <Eigen/Geometry>

#include <cmath>

namespace flangewright::support {

using shell::dof_per_node;

CurvedPatch curve_patch(
    int n_long, int n_wide, const std::function<Eigen::Vector3d(double along, double across)>& map
) {
    constexpr double d = 1e-5;
    CurvedPatch curved{map_patch(n_long, n_wide, map), {}};
    curved.directors.resize(3, curved.patch.positions.cols());
    for (int i = 0; i <= n_long; ++i) {
        for (int j = 0; j <= n_wide; ++j) {
            const double along = static_cast<double>(i) / n_long;
            const double across = static_cast<double>(j) / n_wide;
            const Eigen::Vector3d first = map(along + d, across) - map(along - d, across);
            const Eigen::Vector3d second = map(along, across + d) - map(along, across - d);
            curved.directors.col(curved.patch.node(i, j)) = first.cross(second).normalized();
        }
    }
    return curved;
}

CurvedPatch cylinder_part(double radius, double angle, double length, int n_round, int n_axial) {
    return curve_patch(n_round, n_axial, [=](double round, double axial) {
        const double at = angle * round;
        return Eigen::Vector3d(radius * std::sin(at), length * axial, radius * std::cos(at));
    });
}

std::string mesh_name(int n_long, int n_wide) {
    return std::to_string(n_long) + " x " + std::to_string(n_wide);
}

void ShellTrial::mirror(std::span<const int> nodes, const Eigen::Vector3d& normal) {
    for (const int node : nodes) {
        const auto at = static_cast<std::size_t>(node);
        Eigen::Matrix3d& axes = problem.node_axes[at];
        // The first axis decides in which direction the director's first rotation acts
        // (equilibrium::shape_of), so the normal must be it.
        if (n_mirrors_[at]++ == 0) {
            Eigen::Vector3d second = Eigen::Vector3d::UnitX();
            for (const Eigen::Vector3d& unit :
                 {Eigen::Vector3d(Eigen::Vector3d::UnitY()),
                  Eigen::Vector3d(Eigen::Vector3d::UnitZ())}) {
                if (std::abs(unit.dot(normal)) < std::abs(second.dot(normal))) {
                    second = unit;
                }
            }
            second = (second - second.dot(normal) * normal).normalized();
            axes << normal, second, normal.cross(second);
        } else {
            check(std::abs(axes.col(0).dot(normal)) < 1e-9, "planes of symmetry are square");
            axes << Eigen::Vector3d(axes.col(0)), normal,
                Eigen::Vector3d(axes.col(0)).cross(normal);
            fix(node, 1);
            fix(node, 4);
        }
        fix(node, 0);
        fix(node, 3);
    }
}

void ShellTrial::hold(std::span<const int> nodes, const Eigen::Vector3d& direction) {
    for (const int node : nodes) {
        const Eigen::Vector3d along =
            problem.node_axes[static_cast<std::size_t>(node)].transpose() * direction;
        Eigen::Index k = 0;
        const double largest = along.cwiseAbs().maxCoeff(&k);
        check(largest > 1 - 1e-9, "a direction held is one of the node's axes");
        fix(node, static_cast<int>(k));
    }
}

void ShellTrial::hold_lean(std::span<const int> nodes, const Eigen::Vector3d& direction) {
    const equilibrium::Shape shape = equilibrium::shape_of(state, problem.node_axes);
    for (const int node : nodes) {
        const Eigen::Vector2d along =
            shape.rotation_bases[static_cast<std::size_t>(node)].transpose() * direction;
        Eigen::Index k = 0;
        const double largest = along.cwiseAbs().maxCoeff(&k);
        check(largest > 1 - 1e-9, "a lean held is one of the node's rotations");
        fix(node, 3 + static_cast<int>(k));
    }
}

double ShellTrial::moved(int node, const Eigen::Vector3d& direction) const {
    return (state.positions.col(node) - model.start_positions.col(node)).dot(direction);
}

Eigen::Matrix3Xd ShellTrial::linear_answer(const equilibrium::DeadLoads& loads) {
    problem.loads = loads;
    const equilibrium::Shape rest = equilibrium::shape_of(state, problem.node_axes);
    Eigen::VectorXd force = -system.balance(problem, rest, true).residual;
    for (Eigen::Index i = 0; i < force.size(); ++i) {
        if (problem.is_fixed[static_cast<std::size_t>(i)]) {
            force[i] = 0;
        }
    }
    check(solver.factorise(system.stiffness()) == 0, "a sheet at rest is stable");
    const Eigen::VectorXd answer = solver.solve(force);
    Eigen::Matrix3Xd moves(3, model.n_nodes());
    for (int node = 0; node < model.n_nodes(); ++node) {
        moves.col(node) = problem.node_axes[static_cast<std::size_t>(node)]
            * answer.segment<3>(node * dof_per_node);
    }
    return moves;
}

equilibrium::DeadLoads ShellTrial::force_on(int node, const Eigen::Vector3d& force) const {
    equilibrium::DeadLoads loads = equilibrium::DeadLoads::none(model.n_nodes());
    loads.on_positions.col(node) = force;
    return loads;
}

equilibrium::DeadLoads ShellTrial::load_per_area(const Eigen::Vector3d& load) const {
    equilibrium::DeadLoads loads = equilibrium::DeadLoads::none(model.n_nodes());
    loads.on_positions = load * model.node_area.transpose();
    return loads;
}

std::vector<int> line_across(const MappedPatch& patch, int j) {
    std::vector<int> nodes;
    for (int i = 0; i <= patch.n_long; ++i) {
        nodes.push_back(patch.node(i, j));
    }
    return nodes;
}

} // namespace flangewright::support
