// The state of the sheet: plain data that one step leaves and the next one takes up.
#pragma once

#include "solver/material/plane_stress_update.hpp"

#include <Eigen/Core>

#include <vector>

namespace flangewright::shell {

/// How a fibre at one in-plane point has thinned: stretch at mid-thickness and its change over z.
struct FibreStretch {
    double mean = 1;
    double slope = 0; ///< 1/mm; fibre position = mean z + slope z^2 / 2
};

/// Shape and memory of the sheet. Points run element by element, four in-plane points each,
/// layers innermost from the block face to the outer face.
struct SheetState {
    Eigen::Matrix3Xd positions; ///< mid-surface nodes, mm
    Eigen::Matrix3Xd directors; ///< unit vectors, block face to outer face
    std::vector<material::PointMemory> points; ///< n_elements * 4 * n_layers
    std::vector<FibreStretch> fibres; ///< n_elements * 4
    std::vector<material::SplitStress> back_stresses; ///< point by point; none: isotropic, MPa
};

/// What pictures and findings read off a state. Per node; strains logarithmic.
struct SheetFields {
    Eigen::VectorXd thickness; ///< mm
    Eigen::VectorXd plastic_strain; ///< largest over the layers
    Eigen::VectorXd major_mid, minor_mid;
    Eigen::VectorXd major_block_face, minor_block_face;
    Eigen::VectorXd major_outer_face, minor_outer_face;
    Eigen::Matrix3Xd stress_block_face; ///< 3 x n_nodes: along the line, across, shear; MPa
    Eigen::Matrix3Xd stress_outer_face;
    Eigen::VectorXd across_outer_face; ///< log strain square to the bend line at the outer face
    Eigen::VectorXd across_block_face;
};

} // namespace flangewright::shell
