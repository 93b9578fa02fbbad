// The way the middle of the sheet was strained, node by node.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"

#include <Eigen/Core>

#include <span>
#include <vector>

namespace flangewright::findings {

/// Log strain of the mid-surface since flat, at the nodes, in rolling axes: along, across,
/// engineering shear. From the centres of the elements around, weighted by flat area.
/// Units: mm, rad from the flat blank's x, -. Shape: 3 x n_nodes. Source:
/// miehe-apel-lambrecht-2002 (strain measure); derived here (docs/theory-findings.md, "Interior
/// neck"). Fails: an element turned inside out counts as not strained.
[[nodiscard]] Eigen::Matrix3Xd membrane_strain(
    const grid::SheetMesh& mesh,
    const Eigen::Ref<const Eigen::Matrix3Xd>& positions,
    double rolling_direction
);

/// Paths of all nodes since the sheet was last soft. A shape whose strain has moved on by less than
/// `smallest_move` at a node adds no point there; what is left at the end of a step lengthens the
/// last stretch if it goes the same way, and is springback if not.
class MembranePaths {
public:
    /// Begins flat.
    explicit MembranePaths(int n_nodes);

    /// A shape on the way, as membrane_strain() says it.
    void look(const Eigen::Matrix3Xd& strain);
    /// The shape a step ends in.
    void end_step(const Eigen::Matrix3Xd& strain);
    /// The sheet is made soft in this shape: all paths begin anew.
    void begin_anew(const Eigen::Matrix3Xd& strain);
    /// The sheet is cut: only these nodes are left, in this order.
    void keep_only(std::span<const int> nodes);

    /// Strain increments of one node. Units: -. Source: none needed. Fails: never.
    [[nodiscard]] std::vector<Eigen::Vector3d> increments(int node) const;
    /// Strain of one node from the beginning of its path to the last point. Units: -. Source: none
    /// needed. Fails: never.
    [[nodiscard]] Eigen::Vector3d moved(int node) const;
    [[nodiscard]] int n_nodes() const { return static_cast<int>(points_.size()); }
    /// Whether all paths are the same. Units: none. Source: none needed. Fails: never.
    [[nodiscard]] bool operator==(const MembranePaths& other) const = default;

    static constexpr double smallest_move = 0.005; ///< log strain

private:
    std::vector<std::vector<Eigen::Vector3d>> points_;
};

} // namespace flangewright::findings
