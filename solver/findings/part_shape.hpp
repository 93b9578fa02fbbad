// What findings need of a part's present shape, and the section in which a station is looked at.
#pragma once

#include "mesh/outline/bend_line.hpp"

#include <Eigen/Core>

namespace flangewright::findings {

/// A view of the present shape; the arrays must outlive it.
struct PartShape {
    Eigen::Ref<const Eigen::Matrix3Xd> positions; ///< mid-surface nodes, mm
    Eigen::Ref<const Eigen::Matrix3Xd> directors; ///< unit, block face to outer face
    Eigen::Ref<const Eigen::VectorXd> thickness; ///< per node, mm
};

/// The flat block face that the web lies or rests on. The normal points away from the block.
struct WebPlane {
    Eigen::Vector3d point = Eigen::Vector3d::Zero();
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ();

    /// Height of a point above the block face. Units: mm. Source: none needed. Fails: never.
    [[nodiscard]] double height(const Eigen::Vector3d& at) const { return normal.dot(at - point); }
};

/// The section square to the bend line at a station: outward in the web plane, and up from it.
struct Section {
    WebPlane plane;
    Eigen::Vector3d origin;
    Eigen::Vector3d outward;

    /// The section of the line's own frame at a station, its outward direction laid into the plane.
    Section(const outline::LineFrame& frame, const WebPlane& web)
        : plane(web), origin(frame.point),
          outward((frame.outward - frame.outward.dot(web.normal) * web.normal).normalized()) {}

    /// Outward distance and height of a point. Units: mm. Source: none needed. Fails: never.
    [[nodiscard]] Eigen::Vector2d at(const Eigen::Vector3d& point) const {
        return {outward.dot(point - origin), plane.height(point)};
    }
};

} // namespace flangewright::findings
