// The released part set on the flat block face: what it rests on, and the gaps beneath the web.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"
#include "solver/findings/part_shape.hpp"
#include "solver/findings/resting_plane.hpp"
#include "solver/job/job.hpp"

#include <Eigen/Core>

#include <vector>

namespace flangewright::findings {

/// How the web sits.
struct WebLift {
    WebPlane plane; ///< the block face; its point lies beneath the web's centroid
    Eigen::Vector2d slopes = Eigen::Vector2d::Zero(); ///< rise of the face per mm along x and y
    std::vector<int> web_nodes;
    Eigen::VectorXd gaps; ///< per web node, square to the face, mm
    double largest = 0; ///< web lift, mm
    std::vector<int> supports; ///< nodes that touch
};

/// How the part may tilt on the block: freely when both ends are free; not out of the planes of
/// symmetry where it continues. Units: none. Source: derived here (docs/theory-findings.md, "Web
/// lift"). Fails: never.
[[nodiscard]] TiltDirections free_tilts(const job::Blank& blank);

/// Sets the part down on its web's block-face points (bend tangent included, bend not).
/// Units: mm. Source: design definition (docs/theory-findings.md, "Web lift"). Fails: never; a
/// mesh without web nodes is a caller's bug.
[[nodiscard]] WebLift
set_on_block(const grid::SheetMesh& mesh, const PartShape& shape, const TiltDirections& tilts);

} // namespace flangewright::findings
