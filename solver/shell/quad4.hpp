// Four-node shell with assumed shear and membrane strains (MITC4+), five degrees of freedom a node,
// total Lagrangian, director updated on the unit sphere.
#pragma once

#include "solver/shell/layered_section.hpp"

#include <array>
#include <span>

namespace flangewright::shell {

inline constexpr int dof_per_node = 5; ///< three displacements, two director rotations
inline constexpr int dof_per_quad = 4 * dof_per_node;

/// What an element needs of its reference shape, computed once.
struct QuadReference {
    struct Point {
        Eigen::Matrix<double, 3, 5> membrane; ///< tied strains -> split membrane strain
        Eigen::Matrix3d to_split; ///< convected (rr, ss, rs) -> split
        Eigen::Matrix2d shear; ///< convected shear -> Cartesian shear
        Eigen::Vector3d bending_start; ///< convected, of the reference shape
        Eigen::Vector3d quadratic_start;
        double area = 0; ///< Jacobian times weight, mm^2
    };
    std::array<Point, 4> points;
    Eigen::Matrix<double, 5, 1> tied_start; ///< tied membrane strains of the reference shape
    Eigen::Vector4d shear_start;
    Eigen::Matrix3d axes = Eigen::Matrix3d::Identity(); ///< rows: local 1, 2, normal
    material::RollingTurn rolling = {}; ///< of the rolling direction from local 1
};

/// One row per node: position, director. mm.
struct QuadNodes {
    Eigen::Matrix<double, 3, 4> positions;
    Eigen::Matrix<double, 3, 4> directors;
};

/// Directions in which the nodes' degrees of freedom act.
struct QuadBases {
    std::array<Eigen::Matrix3d, 4> displacement; ///< columns
    std::array<Eigen::Matrix<double, 3, 2>, 4> rotation; ///< columns, square to the director
};

/// What the last accepted increment left in an element.
struct QuadPoints {
    std::span<const FibreStretch> fibres; ///< four in-plane points
    std::span<const material::PointMemory> memory; ///< point by point, layer by layer
    std::span<const material::SplitStress> back_stresses = {}; ///< of each layer in turn
};

/// Force and stiffness of one element in its nodes' degrees of freedom.
struct QuadForce {
    Eigen::Matrix<double, dof_per_quad, 1> force;
    Eigen::Matrix<double, dof_per_quad, dof_per_quad> stiffness;
    bool has_converged = true;
};

/// `along` is the direction, projected on the element, that becomes the local first axis.
/// Units: mm. Shape: 4 nodes counter-clockwise about the directors. Source: dvorkin-bathe-1984
/// (shear), ko-lee-bathe-2017 (membrane, formulas from memory, to be confirmed). Fails: never for
/// a quad of positive area.
[[nodiscard]] QuadReference
make_quad_reference(const QuadNodes& start, const Eigen::Vector3d& along);

/// Strain of the section at one of the four in-plane points. Units, source as above.
[[nodiscard]] SectionStrain
quad_strain(const QuadReference& reference, const QuadNodes& now, int point);

/// Units: N, N mm. Shape: 20, node by node (3 displacements, 2 rotations). Source: as above;
/// tangent exact for the exponential update, simo-fox-1989; with back stresses its symmetric part
/// (docs/theory.md, "Back stress"). Fails: has_converged is false when a point could not be
/// updated.
[[nodiscard]] QuadForce quad_force(
    const Section& section,
    const QuadReference& reference,
    const QuadNodes& now,
    const QuadBases& bases,
    const QuadPoints& points,
    bool with_stiffness
);

/// The same. Units, source, fails as above.
// NOLINTNEXTLINE(readability-function-size): goes once its callers pass QuadPoints
[[nodiscard]] inline QuadForce quad_force(
    const Section& section,
    const QuadReference& reference,
    const QuadNodes& now,
    const QuadBases& bases,
    std::span<const FibreStretch> fibres,
    std::span<const material::PointMemory> memory,
    bool with_stiffness
) {
    return quad_force(
        section, reference, now, bases, QuadPoints{fibres, memory, {}}, with_stiffness
    );
}

} // namespace flangewright::shell
