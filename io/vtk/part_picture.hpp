// A picture of the formed part in space, coloured by one figure.
#pragma once

#include "io/vtk/picture_text.hpp"
#include "mesh/grid/sheet_mesh.hpp"

#include <optional>
#include <string>

namespace flangewright::vtk {

/// What is shown. Lengths in mm; the figure in the unit its title names.
struct PartPicture {
    PictureText text;
    std::string scale_title; ///< figure and unit, e.g. "Thinning, %"
    Eigen::Matrix3Xd positions; ///< mid-surface nodes
    Eigen::Matrix3Xd directors;
    Eigen::VectorXd thickness;
    Eigen::VectorXd figure; ///< per node
    std::string mark; ///< stands at the node with the largest figure, e.g. "9.7 %"
    std::optional<Eigen::Matrix3Xd> other_shape; ///< drawn as thin grey lines
};

/// Bytes of a PNG, 1600 by 1000; empty when the picture library gave none.
/// Units: as PartPicture says. Source: none needed. Fails: aborts without an X display.
[[nodiscard]] std::string part_picture(const grid::SheetMesh& mesh, const PartPicture& picture);

} // namespace flangewright::vtk
