// Where the released part lies when it is set on the flat block face, and how it gets there.
#pragma once

#include "solver/findings/web_lift.hpp"

#include <Eigen/Core>

namespace flangewright::findings {

/// A move of a body that keeps its shape.
struct RigidMove {
    Eigen::Matrix3d turn = Eigen::Matrix3d::Identity();
    Eigen::Vector3d shift = Eigen::Vector3d::Zero();

    /// Units: mm. Source: none needed. Fails: never.
    [[nodiscard]] Eigen::Matrix3Xd of_points(const Eigen::Matrix3Xd& points) const {
        return (turn * points).colwise() + shift;
    }
    /// Unit vectors turn along and don't shift. Units: none. Source: none needed. Fails: never.
    [[nodiscard]] Eigen::Matrix3Xd of_directors(const Eigen::Matrix3Xd& directors) const {
        return turn * directors;
    }
};

/// Sets the part down on the block's face, the plane z = 0, on the points its web lift is measured
/// from. Then it is slid and turned along the face until its web lies where it lay `before`, as
/// nearly as can be (least squares over the web's nodes); not out of a plane of symmetry.
/// Units: mm. Source: derived here (docs/theory-findings.md, "Set down"). Fails: never; `before`
/// holds the positions of the same nodes.
[[nodiscard]] RigidMove move_onto_block(
    const grid::SheetMesh& mesh,
    const PartShape& shape,
    const TiltDirections& tilts,
    const Eigen::Ref<const Eigen::Matrix3Xd>& before
);

} // namespace flangewright::findings
