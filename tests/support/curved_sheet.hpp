// Curved elastic shells for published checks: supports by planes of symmetry and held directions,
// reading of displacements, one linear answer.
#pragma once

#include "tests/support/elastic_sheet.hpp"

#include <span>
#include <string>
#include <vector>

namespace flangewright::support {

/// A patch with its unit directors. Any length.
struct CurvedPatch {
    MappedPatch patch;
    Eigen::Matrix3Xd directors;
};

/// Directors are the unit normals of the map, by central differences; the map may be asked a little
/// outside the unit square.
[[nodiscard]] CurvedPatch curve_patch(
    int n_long, int n_wide, const std::function<Eigen::Vector3d(double along, double across)>& map
);

/// Part of a cylinder about the y axis, from the top (x = 0, directors outward): `along` turns by
/// `angle` toward +x, `across` runs to y = `length`.
[[nodiscard]] CurvedPatch
cylinder_part(double radius, double angle, double length, int n_round, int n_axial);

/// "16 x 16".
[[nodiscard]] std::string mesh_name(int n_long, int n_wide);

/// A curved sheet with its supports, in global axes.
class ShellTrial : public SheetTrial {
public:
    ShellTrial(shell::Section section, const CurvedPatch& curved)
        : SheetTrial(std::move(section), curved.patch, curved.directors),
          n_mirrors_(static_cast<std::size_t>(model.n_nodes())) {}

    /// Holds nodes in a plane of symmetry with this unit normal: no move along it, no lean toward
    /// it. Call it before hold(); a node may lie in two such planes square to each other.
    void mirror(std::span<const int> nodes, const Eigen::Vector3d& normal);
    /// Holds the displacement of nodes along one of their axes.
    void hold(std::span<const int> nodes, const Eigen::Vector3d& direction);

    /// Holds the director of nodes from leaning toward this direction, square to it.
    void hold_lean(std::span<const int> nodes, const Eigen::Vector3d& direction);

    /// How far a node has moved from the start, along a unit direction.
    [[nodiscard]] double moved(int node, const Eigen::Vector3d& direction) const;
    /// Displacements, 3 x n_nodes, that the tangent at rest gives under these loads.
    [[nodiscard]] Eigen::Matrix3Xd linear_answer(const equilibrium::DeadLoads& loads);
    /// A force on one node, no other load.
    [[nodiscard]] equilibrium::DeadLoads force_on(int node, const Eigen::Vector3d& force) const;
    /// Forces of a load per area that keeps its direction.
    [[nodiscard]] equilibrium::DeadLoads load_per_area(const Eigen::Vector3d& load) const;

private:
    std::vector<int> n_mirrors_;
};

/// Nodes of the line j = constant.
[[nodiscard]] std::vector<int> line_across(const MappedPatch& patch, int j);

} // namespace flangewright::support
