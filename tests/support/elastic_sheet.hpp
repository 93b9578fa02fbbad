// A mapped patch of shell elements with its own supports and loads, for tests that need no mesher.
#pragma once

#include "solver/equilibrium/path.hpp"
#include "tests/support/flow_law.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <memory>
#include <stop_token>
#include <utility>
#include <vector>

namespace flangewright::support {

/// Nodes and elements over the unit square, carried over by a map. Any length.
struct MappedPatch {
    int n_long = 1;
    int n_wide = 1;
    Eigen::Matrix3Xd positions;
    std::vector<std::array<int, 4>> quads;

    [[nodiscard]] int node(int i, int j) const { return i * (n_wide + 1) + j; }
    /// Nodes of the line i = constant.
    [[nodiscard]] std::vector<int> line(int i) const {
        std::vector<int> nodes;
        for (int j = 0; j <= n_wide; ++j) {
            nodes.push_back(node(i, j));
        }
        return nodes;
    }
};

inline MappedPatch map_patch(
    int n_long, int n_wide, const std::function<Eigen::Vector3d(double along, double across)>& map
) {
    MappedPatch patch;
    patch.n_long = n_long;
    patch.n_wide = n_wide;
    patch.positions.resize(3, (n_long + 1) * (n_wide + 1));
    for (int i = 0; i <= n_long; ++i) {
        for (int j = 0; j <= n_wide; ++j) {
            patch.positions.col(patch.node(i, j)) =
                map(static_cast<double>(i) / n_long, static_cast<double>(j) / n_wide);
        }
    }
    for (int i = 0; i < n_long; ++i) {
        for (int j = 0; j < n_wide; ++j) {
            patch.quads.push_back(
                {patch.node(i, j),
                 patch.node(i + 1, j),
                 patch.node(i + 1, j + 1),
                 patch.node(i, j + 1)}
            );
        }
    }
    return patch;
}

/// A rectangle in the plane z = 0 with its length along x.
inline MappedPatch rectangle(double length, double width, int n_long, int n_wide) {
    return map_patch(n_long, n_wide, [=](double along, double across) {
        return Eigen::Vector3d(length * along, width * across, 0);
    });
}

/// A patch in equilibrium, flat (directors +z) or curved, moved by supports and loads. Does not
/// move in memory: the problem points into it.
class SheetTrial {
public:
    SheetTrial(shell::Section section, const MappedPatch& flat)
        : SheetTrial(
            std::move(section), flat, Eigen::Vector3d::UnitZ().replicate(1, flat.positions.cols())
        ) {}
    /// The same for a patch that is curved from the start, with its directors.
    SheetTrial(shell::Section section, MappedPatch curved, Eigen::Matrix3Xd directors)
        : patch(std::move(curved)),
          model(shell::make_shell_model(
              std::move(section),
              patch.positions,
              std::move(directors),
              patch.quads,
              [](const Eigen::Vector3d&) { return Eigen::Vector3d::UnitX(); }
          )),
          state(shell::virgin_state(model)), system(model, 1), solver(system.pattern()) {
        const auto n_nodes = static_cast<std::size_t>(model.n_nodes());
        problem.model = &model;
        problem.state = &state;
        problem.node_axes.assign(n_nodes, Eigen::Matrix3d::Identity());
        problem.loads = equilibrium::DeadLoads::none(model.n_nodes());
        problem.is_fixed.assign(n_nodes * shell::dof_per_node, false);
        problem.half_thickness = shell::half_thickness(model, state);
    }
    SheetTrial(const SheetTrial&) = delete;
    SheetTrial& operator=(const SheetTrial&) = delete;

    /// Holds one degree of freedom of a node: 0 to 2 along its axes, 3 and 4 its director.
    void fix(int node, int k) {
        problem.is_fixed[static_cast<std::size_t>(node * shell::dof_per_node + k)] = true;
    }
    void set_free(int node, int k) {
        problem.is_fixed[static_cast<std::size_t>(node * shell::dof_per_node + k)] = false;
    }
    void clamp(const std::vector<int>& nodes) {
        for (const int node : nodes) {
            for (int k = 0; k < shell::dof_per_node; ++k) {
                fix(node, k);
            }
        }
    }

    /// Raises the loads evenly from `from` to `to` times `full`.
    equilibrium::PathReport load(
        const equilibrium::DeadLoads& full,
        double from,
        double to,
        const equilibrium::PathLimits& limits,
        const std::stop_token& stop = {},
        const std::function<bool(const equilibrium::PathReport&)>& on_accepted = {}
    ) {
        equilibrium::Path path;
        path.set = [&](equilibrium::Problem& now, double share) {
            now.loads = equilibrium::DeadLoads::none(model.n_nodes());
            now.loads.add(full, from + (to - from) * share);
        };
        path.on_accepted = on_accepted;
        return equilibrium::follow_path({system, solver, 1}, problem, state, path, limits, stop);
    }

    /// Balances the present state with its fixed degrees of freedom held where they are; the sheet
    /// then remembers the shape.
    equilibrium::NewtonReport settle(const equilibrium::NewtonLimits& limits) {
        problem.half_thickness = shell::half_thickness(model, state);
        equilibrium::Shape shape = equilibrium::shape_of(state, problem.node_axes);
        const equilibrium::NewtonReport report =
            equilibrium::find_equilibrium(system, solver, problem, shape, limits, {});
        if (report.end == equilibrium::NewtonEnd::converged) {
            state.positions = shape.positions;
            state.directors = shape.directors;
            check(shell::remember_shape(model, state, 1), "an equilibrium can be remembered");
        }
        return report;
    }

    /// Forces the supports have to bring up, per degree of freedom; zero where free.
    Eigen::VectorXd reactions() {
        const equilibrium::Shape shape = equilibrium::shape_of(state, problem.node_axes);
        return system.balance(problem, shape, false).residual;
    }

    MappedPatch patch;
    shell::ShellModel model;
    shell::SheetState state;
    equilibrium::SheetSystem system;
    equilibrium::LinearSolver solver;
    equilibrium::Problem problem;
};

/// A section that never flows.
inline shell::Section elastic_section(double E, double nu, double thickness, int n_layers = 2) {
    return {{E, nu}, endless_elasticity(), thickness, shell::gauss_layers(n_layers)};
}

/// Newton for thin elastic sheets: bending a thin sheet is so much softer than stretching it that
/// the residual must be allowed to rise on the way; full steps are taken.
inline equilibrium::PathLimits thin_sheet_limits(double step) {
    equilibrium::PathLimits limits;
    limits.first_step = step;
    limits.largest_step = step;
    limits.largest_turn = 1;
    limits.newton.tolerance = 1e-8;
    limits.newton.largest_turn = 0.5;
    limits.newton.largest_move = 1e9;
    limits.newton.n_shortenings_most = 0;
    limits.newton.n_iterations_most = 60;
    return limits;
}

} // namespace flangewright::support
