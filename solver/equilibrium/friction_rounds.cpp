#include "solver/equilibrium/friction_rounds.hpp"

#include <algorithm>

namespace flangewright::equilibrium {

namespace {

// Limit and direction of friction as the tools push in this shape.
void take_push(Problem& problem, const Shape& shape) {
    for (std::size_t tool = 0; tool < problem.friction.size(); ++tool) {
        const tooling::SweptContact& contact = problem.contacts[tool];
        for (std::size_t i = 0; i < contact.nodes.size(); ++i) {
            const tooling::ContactReading reading =
                tooling::read_contact(contact, contact_node(problem, shape, contact.nodes[i]));
            tooling::Sticking& sticking = problem.friction[tool].nodes[i];
            sticking.limit = contact.friction * reading.push;
            if (reading.is_touching) {
                sticking.normal = reading.normal;
            }
        }
    }
}

// The tool at the station of a point.
tooling::Placement
placement_at(const tooling::SweptContact& contact, const Eigen::Vector3d& point) {
    return contact.surface->placement_at(contact.line.locate(point).station);
}

Eigen::Vector3d packed(const tooling::Placement& placement) {
    return {placement.turn, placement.shift[0], placement.shift[1]};
}

tooling::Placement unpacked(const Eigen::Vector3d& packed) {
    return {packed[0], packed.tail<2>()};
}

} // namespace

void prepare_friction(Problem& problem) {
    const bool has_friction =
        std::ranges::any_of(problem.contacts, [](const tooling::SweptContact& contact) {
            return contact.friction > 0;
        });
    if (!has_friction || !problem.friction.empty()) {
        return;
    }
    const Eigen::Index n_nodes = problem.model->n_nodes();
    problem.friction.resize(problem.contacts.size());
    for (std::size_t tool = 0; tool < problem.contacts.size(); ++tool) {
        problem.friction[tool].memory = {
            Eigen::Matrix3Xd::Zero(3, n_nodes),
            Eigen::Vector3d::UnitZ().replicate(1, n_nodes),
            Eigen::VectorXd::Zero(n_nodes),
            packed(problem.contacts[tool].surface->placement()).replicate(1, n_nodes),
        };
    }
}

void begin_friction(Problem& problem, const Shape& shape) {
    for (std::size_t tool = 0; tool < problem.friction.size(); ++tool) {
        const tooling::SweptContact& contact = problem.contacts[tool];
        ToolFriction& friction = problem.friction[tool];
        const FrictionMemory& memory = friction.memory;
        friction.nodes.resize(contact.nodes.size());
        for (std::size_t i = 0; i < contact.nodes.size(); ++i) {
            const int node = contact.nodes[i];
            const Eigen::Vector3d point =
                tooling::touching_point(contact, contact_node(problem, shape, node));
            const tooling::Placement then = unpacked(memory.placement.col(node));
            const tooling::Placement now = placement_at(contact, point);
            const auto carried = [&](const Eigen::Vector3d& direction) {
                return tooling::carry(contact.line, then, now, {point, direction});
            };
            const tooling::Carried slip = carried(memory.slip.col(node));
            friction.nodes[i] = {
                .place = slip.point,
                .slip = slip.direction,
                .normal = carried(memory.normal.col(node)).direction,
                .limit = memory.limit[node],
                .stiffness = contact.stick_stiffness * problem.model->node_area[node],
            };
        }
    }
}

void remember_friction(Problem& problem, const Shape& shape) {
    for (std::size_t tool = 0; tool < problem.friction.size(); ++tool) {
        const tooling::SweptContact& contact = problem.contacts[tool];
        ToolFriction& friction = problem.friction[tool];
        for (std::size_t i = 0; i < contact.nodes.size(); ++i) {
            const int node = contact.nodes[i];
            const tooling::Sticking& sticking = friction.nodes[i];
            const Eigen::Vector3d point =
                tooling::touching_point(contact, contact_node(problem, shape, node));
            friction.memory.placement.col(node) = packed(placement_at(contact, point));
            friction.memory.slip.col(node) = tooling::read_friction(sticking, point).slip;
            friction.memory.normal.col(node) = sticking.normal;
            friction.memory.limit[node] = sticking.limit;
        }
    }
}

NewtonReport find_equilibrium_with_friction(
    SheetSystem& system,
    LinearSolver& solver,
    Problem& problem,
    Shape& shape,
    const NewtonLimits& limits,
    const std::stop_token& stop
) {
    NewtonReport report = find_equilibrium(system, solver, problem, shape, limits, stop);
    if (problem.friction.empty()) {
        return report;
    }
    constexpr int n_rounds_most = 12;
    for (int round = 0; round < n_rounds_most && report.end == NewtonEnd::converged; ++round) {
        take_push(problem, shape);
        const NewtonReport next = find_equilibrium(system, solver, problem, shape, limits, stop);
        report.end = next.end;
        report.residual = next.residual;
        report.n_iterations += next.n_iterations;
        if (next.n_iterations == 0) {
            return report; // in balance with the new push already
        }
        report.n_negative_pivots = next.n_negative_pivots;
    }
    if (report.end == NewtonEnd::converged) {
        report.end = NewtonEnd::too_slow;
    }
    return report;
}

} // namespace flangewright::equilibrium
