#include "solver/equilibrium/sheet_system.hpp"

#include "mesh/base/parallel.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>

namespace flangewright::equilibrium {

namespace {

using shell::dof_per_node;
using shell::dof_per_quad;

class Stopwatch {
public:
    explicit Stopwatch(double& total) : total_(total) {}
    ~Stopwatch() {
        total_ += std::chrono::duration<double>(std::chrono::steady_clock::now() - begin_).count();
    }
    Stopwatch(const Stopwatch&) = delete;
    Stopwatch& operator=(const Stopwatch&) = delete;

private:
    double& total_;
    std::chrono::steady_clock::time_point begin_ = std::chrono::steady_clock::now();
};

// Contact and friction together.
tooling::ContactReading read_tool(
    const Problem& problem, std::size_t tool, const tooling::ContactNode& node, std::size_t index
) {
    const tooling::SweptContact& contact = problem.contacts[tool];
    tooling::ContactReading reading = tooling::read_contact(contact, node);
    if (!problem.friction.empty() && problem.friction[tool].nodes[index].limit > 0) {
        const tooling::FrictionReading friction = tooling::read_friction(
            problem.friction[tool].nodes[index], tooling::touching_point(contact, node)
        );
        reading.is_touching = true;
        reading.gradient += friction.gradient;
        reading.stiffness += friction.stiffness;
    }
    return reading;
}

shell::QuadBases gather_bases(
    const std::array<int, 4>& quad, const std::vector<Eigen::Matrix3d>& axes, const Shape& shape
) {
    shell::QuadBases bases;
    for (std::size_t n = 0; n < 4; ++n) {
        const auto node = static_cast<std::size_t>(quad[n]);
        bases.displacement[n] = axes[node];
        bases.rotation[n] = shape.rotation_bases[node];
    }
    return bases;
}

// Of the free degrees of freedom; moments count as forces on an arm of the thickness.
double norm_of(const Eigen::VectorXd& residual, const Problem& problem) {
    const double length = problem.model->section.thickness;
    double squared = 0;
    for (Eigen::Index i = 0; i < residual.size(); ++i) {
        if (problem.is_fixed[static_cast<std::size_t>(i)]) {
            continue;
        }
        const double value = i % dof_per_node < 3 ? residual[i] : residual[i] / length;
        squared += value * value;
    }
    return std::sqrt(squared);
}

} // namespace

DeadLoads DeadLoads::none(int n_nodes) {
    return {
        Eigen::Matrix3Xd::Zero(3, n_nodes),
        Eigen::Matrix3Xd::Zero(3, n_nodes),
        Eigen::Matrix3Xd::Zero(3, n_nodes),
    };
}

void DeadLoads::add(const DeadLoads& other, double factor) {
    on_positions += factor * other.on_positions;
    on_directors += factor * other.on_directors;
    moments += factor * other.moments;
}

SheetSystem::SheetSystem(const shell::ShellModel& model, int n_threads)
    : n_threads_(n_threads), pattern_(make_pattern(model.quads, model.n_nodes())),
      stiffness_(Eigen::VectorXd::Zero(pattern_.n_entries())), element_forces_(model.quads.size()) {
}

Balance SheetSystem::balance(const Problem& problem, const Shape& shape, bool with_stiffness) {
    Balance balance;
    balance.residual = Eigen::VectorXd::Zero(pattern_.n_dof);
    if (with_stiffness) {
        stiffness_.setZero();
    }
    add_elements(problem, shape, with_stiffness, balance);
    if (!balance.is_good) {
        return balance;
    }
    add_contact(problem, shape, with_stiffness, balance);
    add_loads(problem, shape, with_stiffness, balance);
    balance.norm = norm_of(balance.residual, problem);
    balance.is_good = std::isfinite(balance.norm);
    if (with_stiffness) {
        hold_fixed(problem.is_fixed);
    }
    return balance;
}

// Fixed degrees of freedom keep row and column, so that the pattern, analysed once, stays.
void SheetSystem::hold_fixed(const std::vector<bool>& is_fixed) {
    for (int column = 0; column < pattern_.n_dof; ++column) {
        const auto at = static_cast<std::size_t>(column);
        for (int k = pattern_.column_start[at]; k < pattern_.column_start[at + 1]; ++k) {
            const int row = pattern_.row[static_cast<std::size_t>(k)];
            if (is_fixed[at] || is_fixed[static_cast<std::size_t>(row)]) {
                stiffness_[k] = row == column ? 1 : 0;
            }
        }
    }
}

void SheetSystem::add_elements(
    const Problem& problem, const Shape& shape, bool with_stiffness, Balance& balance
) {
    const Stopwatch watch(clock_.elements);
    const shell::ShellModel& model = *problem.model;
    const shell::SheetState& state = *problem.state;
    std::atomic<bool> is_good = true;
    for_each_index(model.n_elements(), n_threads_, [&](int e) {
        const auto at = static_cast<std::size_t>(e);
        if (!is_good) {
            return;
        }
        element_forces_[at] = shell::quad_force(
            model.section,
            model.references[at],
            shell::gather_nodes(model.quads[at], shape.positions, shape.directors),
            gather_bases(model.quads[at], problem.node_axes, shape),
            shell::points_of(model, state, at),
            with_stiffness
        );
        if (!element_forces_[at].has_converged) {
            is_good = false;
        }
    });
    balance.is_good = is_good;
    if (!is_good) {
        return;
    }
    const double length = model.section.thickness;
    double squared = 0;
    std::size_t entry = 0;
    for (std::size_t e = 0; e < element_forces_.size(); ++e) {
        const shell::QuadForce& element = element_forces_[e];
        for (int i = 0; i < dof_per_quad; ++i) {
            const int node = model.quads[e][static_cast<std::size_t>(i / dof_per_node)];
            const int k = i % dof_per_node;
            balance.residual[node * dof_per_node + k] += element.force[i];
            const double value = k < 3 ? element.force[i] : element.force[i] / length;
            squared += value * value;
        }
        if (with_stiffness) {
            for (int j = 0; j < dof_per_quad; ++j) {
                for (int i = j; i < dof_per_quad; ++i) {
                    stiffness_[pattern_.element_entries[entry++]] += element.stiffness(i, j);
                }
            }
        }
    }
    // A sheet without stress, such as an annealed one, is in balance for all that rounding leaves.
    const double stiffness = model.section.elasticity.youngs_modulus * length * length;
    constexpr double no_stress = 1e-5; // over Young's modulus
    const double least = no_stress * stiffness * std::sqrt(static_cast<double>(model.n_elements()));
    balance.scale = std::max(std::sqrt(squared), least);
}

void SheetSystem::add_node_block(int node, const Eigen::Matrix<double, 5, 5>& block) {
    for (int j = 0; j < dof_per_node; ++j) {
        const auto column = static_cast<std::size_t>(node * dof_per_node + j);
        for (int i = j; i < dof_per_node; ++i) {
            // The node's own block is dense and leads its columns.
            stiffness_[pattern_.column_start[column] + i - j] += block(i, j);
        }
    }
}

void SheetSystem::add_contact(
    const Problem& problem, const Shape& shape, bool with_stiffness, Balance& balance
) {
    const Stopwatch watch(clock_.contact);
    for (std::size_t tool = 0; tool < problem.contacts.size(); ++tool) {
        const std::vector<int>& nodes = problem.contacts[tool].nodes;
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            const int node = nodes[i];
            const tooling::ContactReading reading =
                read_tool(problem, tool, contact_node(problem, shape, node), i);
            if (!reading.is_touching) {
                continue;
            }
            const auto at = static_cast<std::size_t>(node);
            Eigen::Matrix<double, 3, 5> moves; // of the touching point per degree of freedom
            moves.leftCols<3>() = problem.node_axes[at];
            moves.rightCols<2>() = reading.offset * shape.rotation_bases[at];
            balance.residual.segment<5>(node * dof_per_node) +=
                moves.transpose() * reading.gradient;
            if (with_stiffness) {
                Eigen::Matrix<double, 5, 5> block = moves.transpose() * reading.stiffness * moves;
                const double along =
                    reading.offset * reading.gradient.dot(shape.directors.col(node));
                block(3, 3) -= along;
                block(4, 4) -= along;
                add_node_block(node, block);
            }
        }
    }
}

void SheetSystem::add_loads(
    const Problem& problem, const Shape& shape, bool with_stiffness, Balance& balance
) {
    for (int node = 0; node < problem.model->n_nodes(); ++node) {
        const auto at = static_cast<std::size_t>(node);
        Eigen::Vector3d force = problem.loads.on_positions.col(node);
        const double spring = problem.anchor_stiffness * problem.model->node_area[node];
        if (spring > 0) {
            force -= spring * (shape.positions.col(node) - problem.anchors.col(node));
        }
        const Eigen::Vector3d director = shape.directors.col(node);
        const Eigen::Vector3d on_director =
            problem.loads.on_directors.col(node) + problem.loads.moments.col(node).cross(director);
        auto residual = balance.residual.segment<5>(node * dof_per_node);
        residual.head<3>() -= problem.node_axes[at].transpose() * force;
        residual.tail<2>() -= shape.rotation_bases[at].transpose() * on_director;
        if (with_stiffness) {
            const double along = problem.loads.on_directors.col(node).dot(director);
            if (along != 0 || spring > 0) {
                Eigen::Matrix<double, 5, 5> block = Eigen::Matrix<double, 5, 5>::Zero();
                block.topLeftCorner<3, 3>().diagonal().setConstant(spring);
                block(3, 3) = along;
                block(4, 4) = along;
                add_node_block(node, block);
            }
        }
    }
}

void follow_guides(const Problem& problem, Shape& shape) {
    for (const Guide& guide : problem.guides) {
        const Eigen::Vector3d axis =
            problem.node_axes[static_cast<std::size_t>(guide.node)].col(guide.axis);
        const double place = guide.from + problem.guided_share * (guide.to - guide.from);
        shape.positions.col(guide.node) +=
            (place - axis.dot(shape.positions.col(guide.node))) * axis;
    }
}

Shape shape_of(const shell::SheetState& state, const std::vector<Eigen::Matrix3d>& node_axes) {
    Shape shape{state.positions, state.directors, {}};
    shape.rotation_bases.resize(node_axes.size());
    for (std::size_t node = 0; node < node_axes.size(); ++node) {
        const Eigen::Vector3d director = shape.directors.col(static_cast<Eigen::Index>(node));
        Eigen::Vector3d first = node_axes[node].col(0);
        if (std::abs(first.dot(director)) > 0.9) { // nearly along the director: take the next axis
            first = node_axes[node].col(1);
        }
        first = (first - first.dot(director) * director).normalized();
        shape.rotation_bases[node] << first, director.cross(first);
    }
    return shape;
}

void move_shape(
    Shape& shape, const std::vector<Eigen::Matrix3d>& node_axes, const Eigen::VectorXd& change
) {
    for (std::size_t node = 0; node < node_axes.size(); ++node) {
        const auto column = static_cast<Eigen::Index>(node);
        const auto step = change.segment<5>(column * dof_per_node);
        shape.positions.col(column) += node_axes[node] * step.head<3>();
        const double angle = step.tail<2>().norm();
        if (angle == 0) {
            continue;
        }
        Eigen::Matrix<double, 3, 2>& basis = shape.rotation_bases[node];
        const Eigen::Vector3d director = shape.directors.col(column);
        const Eigen::Vector2d heading = step.tail<2>() / angle;
        const Eigen::Vector3d toward = basis * heading;
        const Eigen::Vector3d turned = std::cos(angle) * director + std::sin(angle) * toward;
        // Parallel transport: only the part of the basis along `toward` turns.
        const Eigen::Vector3d change_of_toward =
            (std::cos(angle) - 1) * toward - std::sin(angle) * director;
        basis += change_of_toward * heading.transpose();
        shape.directors.col(column) = turned.normalized();
    }
}

tooling::ContactNode contact_node(const Problem& problem, const Shape& shape, int node) {
    return {
        shape.positions.col(node),
        shape.directors.col(node),
        problem.half_thickness[node],
        problem.model->node_area[node],
    };
}

DeadLoads tool_forces(const Problem& problem, const Shape& shape) {
    DeadLoads loads = DeadLoads::none(problem.model->n_nodes());
    for (std::size_t tool = 0; tool < problem.contacts.size(); ++tool) {
        const std::vector<int>& nodes = problem.contacts[tool].nodes;
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            const int node = nodes[i];
            const tooling::ContactReading reading =
                read_tool(problem, tool, contact_node(problem, shape, node), i);
            loads.on_positions.col(node) -= reading.gradient;
            loads.on_directors.col(node) -= reading.offset * reading.gradient;
        }
    }
    return loads;
}

double deepest_penetration(const Problem& problem, const Shape& shape) {
    double deepest = 0;
    for (const tooling::SweptContact& contact : problem.contacts) {
        for (const int node : contact.nodes) {
            const tooling::ContactReading reading =
                tooling::read_contact(contact, contact_node(problem, shape, node));
            deepest = std::max(deepest, -reading.gap);
        }
    }
    return deepest;
}

} // namespace flangewright::equilibrium
