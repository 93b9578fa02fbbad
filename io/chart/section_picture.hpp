// The section square to the bend line: block, part held on it, part released.
#pragma once

#include "io/vtk/picture_text.hpp"
#include "solver/job/job.hpp"

#include <optional>
#include <string>
#include <vector>

namespace flangewright::chart {

/// A sheet cut through: per node, in mm, where the faces are. x toward the flange, y up.
struct SheetSection {
    std::vector<Eigen::Vector2d> block_face;
    std::vector<Eigen::Vector2d> outer_face;
};

/// What is drawn, to scale.
struct SectionPicture {
    vtk::PictureText text;
    SheetSection held;
    std::optional<SheetSection> released;
    std::string held_caption;
    std::string released_caption;
    bool shows_lip_block = false; ///< the held sheet is that of a return bend
    double ruler_length = 10; ///< mm
    std::string ruler_caption;
};

/// Section through nodes from web edge to free edge. Units: mm. Source: derived here
/// (docs/outputs.md, "Coordinates"). Fails: never.
[[nodiscard]] SheetSection section_through(
    const std::vector<int>& nodes,
    const outline::LineFrame& frame,
    const Eigen::Matrix3Xd& positions,
    const Eigen::Matrix3Xd& directors,
    const Eigen::VectorXd& thickness
);

/// Bytes of a PNG, 1600 by 1000; empty when the picture library gave none.
/// Units: mm. Source: none needed. Fails: aborts without an X display.
[[nodiscard]] std::string section_picture(const job::Job& job, const SectionPicture& picture);

} // namespace flangewright::chart
