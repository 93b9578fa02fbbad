// What forming does to holes, notches and tabs.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"
#include "solver/findings/findings.hpp"

#include <Eigen/Core>

#include <vector>

namespace flangewright::findings {

/// Units: none. Source: none needed. Fails: never.
[[nodiscard]] OpeningKind opening_kind(grid::Rim::Kind kind);

/// One entry per rim of the mesh. Shape: 3 x n_nodes. Units: mm, log strain. Source:
/// edge_strain.hpp; diameters are distances of opposite nodes, along the chord (derived here).
/// Fails: never.
[[nodiscard]] std::vector<OpeningFindings>
find_openings(const grid::SheetMesh& mesh, const Eigen::Ref<const Eigen::Matrix3Xd>& positions);

/// Lessens the used strains by what was there in a shape in which the sheet was soft, place by
/// place. Units: log strain. Source: as count_from_soft(). Fails: never.
void count_openings_from_soft(
    std::vector<OpeningFindings>& openings,
    const grid::SheetMesh& mesh,
    const Eigen::Ref<const Eigen::Matrix3Xd>& positions,
    const Eigen::Ref<const Eigen::Matrix3Xd>& soft_positions
);

} // namespace flangewright::findings
