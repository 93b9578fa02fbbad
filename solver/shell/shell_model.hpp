// The whole sheet as shell elements over its reference shape, and the memory it starts with.
#pragma once

#include "solver/shell/quad4.hpp"

#include <functional>
#include <vector>

namespace flangewright::shell {

/// Elements, section and node areas of a sheet. Fixed for a mesh.
struct ShellModel {
    Section section;
    std::vector<std::array<int, 4>> quads;
    std::vector<QuadReference> references;
    Eigen::VectorXd node_area; ///< tributary reference area, mm^2
    Eigen::Matrix3Xd start_positions;
    Eigen::Matrix3Xd start_directors;

    [[nodiscard]] int n_nodes() const { return static_cast<int>(start_positions.cols()); }
    [[nodiscard]] int n_elements() const { return static_cast<int>(quads.size()); }
};

/// The direction that becomes an element's first local axis, given the element's middle.
using AlongField = std::function<Eigen::Vector3d(const Eigen::Vector3d&)>;

/// Units: mm. Shape: 3 x n_nodes each. Source: quad4.hpp. Fails: never for quads of positive area.
[[nodiscard]] ShellModel make_shell_model(
    Section section,
    Eigen::Matrix3Xd positions,
    Eigen::Matrix3Xd directors,
    std::vector<std::array<int, 4>> quads,
    const AlongField& along
);

/// The sheet as bought: reference shape, no strain behind it. Source: none needed. Fails: never.
[[nodiscard]] SheetState virgin_state(const ShellModel& model);

/// Nodes of one element. Source: none needed. Fails: never.
[[nodiscard]] QuadNodes gather_nodes(
    const std::array<int, 4>& quad,
    const Eigen::Matrix3Xd& positions,
    const Eigen::Matrix3Xd& directors
);

/// What an element's points remember. Shape: quad4.hpp. Source: none needed. Fails: never for a
/// state of this model.
[[nodiscard]] QuadPoints
points_of(const ShellModel& model, const SheetState& state, std::size_t element);

/// Half the present thickness at each node, mm: mean fibre stretch of the elements round it.
/// Shape: n_nodes. Source: derived here (docs/theory.md, "Thickness"). Fails: never.
[[nodiscard]] Eigen::VectorXd half_thickness(const ShellModel& model, const SheetState& state);

/// One in-plane point of a state: its strain now, and what it may remember of it.
struct PointView {
    SectionStrain strain;
    FibreStretch& fibre;
    std::span<material::PointMemory> memory; ///< layer by layer
    std::span<material::SplitStress> back_stresses; ///< of each layer in turn
};

/// Shows all points, several at a time. Units: as the state. Source: none needed. Fails: returns
/// false when the visitor did for a point.
bool visit_points(
    const ShellModel& model,
    SheetState& state,
    int n_threads,
    const std::function<bool(const PointView&)>& visit
);

/// Makes the state remember the strain of its present shape: plastic strain, back stresses and
/// fibre stretch of every point. Units, source: layered_section.hpp. Fails: returns false, memory
/// partly unchanged, when a point can't be updated; call it on a copy.
bool remember_shape(const ShellModel& model, SheetState& state, int n_threads);

} // namespace flangewright::shell
