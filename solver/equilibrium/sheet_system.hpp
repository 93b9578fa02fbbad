// Forces and stiffness of the whole sheet in its degrees of freedom: shell, tools, dead loads,
// supports.
#pragma once

#include "solver/equilibrium/sparse_pattern.hpp"
#include "solver/shell/shell_model.hpp"
#include "solver/tooling/friction.hpp"
#include "solver/tooling/swept_contact.hpp"

#include <vector>

namespace flangewright::equilibrium {

/// A shape on trial, with the directions its rotations act in.
struct Shape {
    Eigen::Matrix3Xd positions;
    Eigen::Matrix3Xd directors;
    std::vector<Eigen::Matrix<double, 3, 2>> rotation_bases; ///< square to the director
};

/// Forces that keep their direction. N on positions, N mm on directors and about moment axes.
struct DeadLoads {
    Eigen::Matrix3Xd on_positions;
    Eigen::Matrix3Xd on_directors;
    Eigen::Matrix3Xd moments;

    /// Source: none needed. Fails: never.
    static DeadLoads none(int n_nodes);
    void add(const DeadLoads& other, double factor);
};

/// What friction at one tool keeps from increment to increment, per node of the mesh.
struct FrictionMemory {
    Eigen::Matrix3Xd slip; ///< give of sticking, mm
    Eigen::Matrix3Xd normal; ///< off the tool
    Eigen::VectorXd limit; ///< force at which it slides, N
    Eigen::Matrix3Xd placement; ///< of the tool then at each node's station: turn, shift
};

/// Friction at one tool: what it keeps, and where its nodes stick in this increment.
struct ToolFriction {
    FrictionMemory memory;
    std::vector<tooling::Sticking> nodes; ///< as those of the contact
};

/// A displacement that is prescribed: a node's place along one of its axes, from the path's begin
/// to its end. The degree of freedom must be a fixed one.
struct Guide {
    int node = 0;
    int axis = 0; ///< column of the node's axes
    double from = 0; ///< mm
    double to = 0; ///< mm
};

/// What is solved: fixed for one increment.
struct Problem {
    const shell::ShellModel* model = nullptr;
    const shell::SheetState* state = nullptr; ///< memory at the increment's start
    std::vector<Eigen::Matrix3d> node_axes; ///< columns: directions of the displacements
    std::vector<tooling::SweptContact> contacts;
    std::vector<ToolFriction> friction; ///< one per contact, or none at all
    DeadLoads loads;
    Eigen::Matrix3Xd anchors; ///< places the nodes are drawn back to, mm
    double anchor_stiffness = 0; ///< of these springs per area, MPa/mm; 0: none
    std::vector<bool> is_fixed; ///< per degree of freedom
    std::vector<Guide> guides;
    double guided_share = 0; ///< how far the guides have come, 0 to 1
    Eigen::VectorXd half_thickness; ///< per node
};

/// Seconds spent where.
struct Clock {
    double elements = 0;
    double factorise = 0;
    double contact = 0;
};

/// Out-of-balance forces.
struct Balance {
    Eigen::VectorXd residual; ///< internal minus external, all degrees of freedom
    double norm = 0; ///< over the free ones; moments divided by the thickness
    double scale = 0; ///< norm of the single elements' forces
    bool is_good = false; ///< false: a point could not be updated, or not finite
};

/// Assembles for one mesh; keeps its work space.
class SheetSystem {
public:
    SheetSystem(const shell::ShellModel& model, int n_threads);

    [[nodiscard]] const SparsePattern& pattern() const { return pattern_; }
    /// Values of the last stiffness, fixed degrees of freedom replaced by unit rows.
    [[nodiscard]] const Eigen::VectorXd& stiffness() const { return stiffness_; }
    [[nodiscard]] Clock& clock() { return clock_; }

    /// Units: N, mm. Shape: 5 per node. Source: shell/quad4.hpp, tooling/swept_contact.hpp.
    /// Fails: is_good is false.
    [[nodiscard]] Balance balance(const Problem& problem, const Shape& shape, bool with_stiffness);

private:
    void
    add_elements(const Problem& problem, const Shape& shape, bool with_stiffness, Balance& balance);
    void
    add_contact(const Problem& problem, const Shape& shape, bool with_stiffness, Balance& balance);
    void
    add_loads(const Problem& problem, const Shape& shape, bool with_stiffness, Balance& balance);
    void hold_fixed(const std::vector<bool>& is_fixed);
    void add_node_block(int node, const Eigen::Matrix<double, 5, 5>& block);

    int n_threads_;
    SparsePattern pattern_;
    Eigen::VectorXd stiffness_;
    std::vector<shell::QuadForce> element_forces_;
    Clock clock_;
};

/// Puts guided nodes where they are led to. Units: mm. Source: none needed. Fails: never.
void follow_guides(const Problem& problem, Shape& shape);

/// Shape of a state, with fresh rotation bases: first base vector laid along the nodes' first axis.
/// Source: none needed. Fails: never.
[[nodiscard]] Shape
shape_of(const shell::SheetState& state, const std::vector<Eigen::Matrix3d>& node_axes);

/// Moves a shape by a vector of all degrees of freedom; directors turn on the unit sphere and take
/// their bases along. Source: simo-fox-1989. Fails: never.
void move_shape(
    Shape& shape, const std::vector<Eigen::Matrix3d>& node_axes, const Eigen::VectorXd& change
);

/// What the tools do to the sheet in this shape, as dead loads. Source: none needed. Fails: never.
[[nodiscard]] DeadLoads tool_forces(const Problem& problem, const Shape& shape);

/// The sheet at a node as contact sees it. Source: none needed. Fails: never.
[[nodiscard]] tooling::ContactNode
contact_node(const Problem& problem, const Shape& shape, int node);

/// Deepest overlap of sheet and tools, mm, >= 0. Source: none needed. Fails: never.
[[nodiscard]] double deepest_penetration(const Problem& problem, const Shape& shape);

} // namespace flangewright::equilibrium
