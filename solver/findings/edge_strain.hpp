// How much the free edge has stretched along itself.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"
#include "solver/job/job.hpp"

#include <Eigen/Core>

namespace flangewright::findings {

/// What the edge does beyond its first and last node.
struct EdgeEnds {
    job::EndKind start = job::EndKind::free;
    job::EndKind end = job::EndKind::free;
};

/// Logarithmic strain of the free edge along its own tangent at mid-thickness, one value per
/// free-edge node: mean of the neighbouring pieces, weighted by flat length. Where the part
/// continues, the mirrored piece counts; at a free end the strain is carried on in a straight line
/// from the last two pieces. Where a notch or tab interrupts the edge the last piece counts.
/// Units: mm, strain in -. Source: design definition (docs/theory-findings.md, "Edge strain").
/// Fails: never for an edge of two nodes that differ.
[[nodiscard]] Eigen::VectorXd edge_strain(
    const grid::SheetMesh& mesh,
    const Eigen::Ref<const Eigen::Matrix3Xd>& positions,
    const EdgeEnds& ends
);

/// The same round an opening, one value per node of the rim. A hole's pieces are alike: from four
/// of them, as cell means give point values of a smooth curve (derived here). At an open rim's ends
/// that of its last piece. Units: strain in -. Source: as edge_strain(). Fails: never for nodes
/// that differ.
[[nodiscard]] Eigen::VectorXd rim_strain(
    const grid::SheetMesh& mesh,
    const grid::Rim& rim,
    const Eigen::Ref<const Eigen::Matrix3Xd>& positions
);

} // namespace flangewright::findings
