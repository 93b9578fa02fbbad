#include "solver/findings/set_down.hpp"

#include "mesh/base/check.hpp"

#include <Eigen/Geometry>

#include <cmath>

namespace flangewright::findings {

namespace {

using Eigen::Matrix3Xd;
using Eigen::Vector3d;

/// The part's resting plane laid onto z = 0.
RigidMove laid_flat(const WebPlane& plane) {
    RigidMove move;
    move.turn = Eigen::Quaterniond::FromTwoVectors(plane.normal, Vector3d::UnitZ()).matrix();
    move.shift = Vector3d(plane.point.x(), plane.point.y(), 0) - move.turn * plane.point;
    return move;
}

Matrix3Xd columns_of(const Eigen::Ref<const Matrix3Xd>& all, const std::vector<int>& nodes) {
    Matrix3Xd chosen(3, static_cast<Eigen::Index>(nodes.size()));
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        chosen.col(static_cast<Eigen::Index>(i)) = all.col(nodes[i]);
    }
    return chosen;
}

/// Angle about z that brings the one set of points nearest to the other, both about their middles.
double turn_in_plan(const Matrix3Xd& from, const Matrix3Xd& to) {
    double along = 0;
    double across = 0;
    for (Eigen::Index i = 0; i < from.cols(); ++i) {
        along += from.col(i).head<2>().dot(to.col(i).head<2>());
        across += from(0, i) * to(1, i) - from(1, i) * to(0, i);
    }
    return std::atan2(across, along);
}

/// The move along the face that brings the web back to where it was.
RigidMove slid_back(const Matrix3Xd& web, const Matrix3Xd& before, const TiltDirections& tilts) {
    const Vector3d middle = web.rowwise().mean();
    const Vector3d middle_before = before.rowwise().mean();
    RigidMove move;
    if (tilts.size() == 2) {
        const double angle = turn_in_plan(web.colwise() - middle, before.colwise() - middle_before);
        move.turn = Eigen::AngleAxisd(angle, Vector3d::UnitZ()).toRotationMatrix();
    }
    const Vector3d left = middle_before - move.turn * middle;
    for (const Vector3d& direction : tilts) {
        move.shift += direction.dot(left) * direction;
    }
    return move;
}

} // namespace

RigidMove move_onto_block(
    const grid::SheetMesh& mesh,
    const PartShape& shape,
    const TiltDirections& tilts,
    const Eigen::Ref<const Matrix3Xd>& before
) {
    check(before.cols() == shape.positions.cols(), "a part has the same nodes before and after");
    const WebLift lift = set_on_block(mesh, shape, tilts);
    const RigidMove down = laid_flat(lift.plane);
    const RigidMove back = slid_back(
        down.of_points(columns_of(shape.positions, lift.web_nodes)),
        columns_of(before, lift.web_nodes),
        tilts
    );
    return {back.turn * down.turn, back.turn * down.shift + back.shift};
}

} // namespace flangewright::findings
