// Contact of one face of the sheet's nodes with a rigid surface swept along the bend line.
#pragma once

#include "mesh/outline/bend_line.hpp"
#include "solver/tooling/contact_law.hpp"
#include "solver/tooling/surface/rigid_surface.hpp"

#include <memory>
#include <vector>

namespace flangewright::tooling {

/// The face of the sheet that touches.
enum class Face { block, outer };

/// One tool against one face of some nodes.
struct SweptContact {
    outline::BendLine line = outline::BendLine::straight(1);
    std::shared_ptr<const RigidSurface> surface;
    ContactLaw law;
    Face face = Face::block;
    std::vector<int> nodes;
    double friction = 0; ///< Coulomb coefficient
    double stick_stiffness = 0; ///< of sticking, MPa/mm
};

/// The sheet at one node. mm.
struct ContactNode {
    Eigen::Vector3d position;
    Eigen::Vector3d director;
    double half_thickness = 0;
    double area = 0; ///< tributary, mm^2
};

/// What the tool does to a node: first and second derivatives of the contact energy over the point
/// of the face that touches.
struct ContactReading {
    double gap = 0; ///< in the section of the point's station, mm, negative: overlap
    double offset = 0; ///< signed distance of the face along the director, mm
    bool is_touching = false;
    Eigen::Vector3d normal = Eigen::Vector3d::Zero(); ///< off the tool; only when touching
    double push = 0; ///< of the tool along the normal, N
    Eigen::Vector3d gradient = Eigen::Vector3d::Zero(); ///< N; minus the force on the sheet
    Eigen::Matrix3d stiffness = Eigen::Matrix3d::Zero(); ///< N/mm
};

/// Where the sheet touches, or would. Units: mm. Shape: 3. Source: none needed. Fails: never.
[[nodiscard]] Eigen::Vector3d touching_point(const SweptContact& contact, const ContactNode& node);

/// Units: mm, N. Shape: 3. Source: distance function of a swept profile, derived here
/// (docs/theory.md, "Contact" and, for a tool worked along the line, "Driving in passes").
/// Fails: never.
[[nodiscard]] ContactReading read_contact(const SweptContact& contact, const ContactNode& node);

} // namespace flangewright::tooling
