// Coulomb friction of one node on a tool: it sticks, with a little give, until the force reaches a
// share of the push, then slides.
#pragma once

#include "mesh/outline/bend_line.hpp"
#include "solver/tooling/surface/rigid_surface.hpp"

namespace flangewright::tooling {

/// Where a node would stick, and how hard. Fixed while forces are balanced, so that friction has an
/// energy then and a symmetric tangent.
struct Sticking {
    Eigen::Vector3d place = Eigen::Vector3d::Zero(); ///< of the touching point without slip, mm
    Eigen::Vector3d slip = Eigen::Vector3d::Zero(); ///< give it begins with, mm
    Eigen::Vector3d normal = Eigen::Vector3d::UnitZ(); ///< off the tool
    double limit = 0; ///< force at which it slides, N
    double stiffness = 0; ///< N/mm
};

/// First and second derivatives of the friction's energy over the touching point.
struct FrictionReading {
    Eigen::Vector3d gradient = Eigen::Vector3d::Zero(); ///< N; minus the force on the sheet
    Eigen::Matrix3d stiffness = Eigen::Matrix3d::Zero(); ///< N/mm, symmetric
    Eigen::Vector3d slip = Eigen::Vector3d::Zero(); ///< give it ends with, mm
    bool slides = false;
};

/// Units: mm, N. Shape: 3. Source: return map of frictional contact, simo-laursen-1992, with the
/// push held (docs/theory.md, "Friction"). Fails: never.
[[nodiscard]] FrictionReading read_friction(const Sticking& sticking, const Eigen::Vector3d& point);

/// A point and a direction that a swept tool takes along from one placement to another.
struct Carried {
    Eigen::Vector3d point;
    Eigen::Vector3d direction;
};

/// Units: mm. Shape: 3. Source: rigid motion in the section at the point's station. Fails: never.
[[nodiscard]] Carried carry(
    const outline::BendLine& line, const Placement& from, const Placement& to, const Carried& before
);

} // namespace flangewright::tooling
