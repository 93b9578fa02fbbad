// Where a label has room beside the thing it names.
#pragma once

#include <Eigen/Core>

#include <optional>
#include <vector>

namespace flangewright::vtk {

/// A label and the paper it may stand on, all in pixels.
struct LabelRoom {
    Eigen::Vector2d half_size; ///< of the label, air around it included
    Eigen::Vector2d low; ///< lower left of the paper's part
    Eigen::Vector2d high; ///< upper right
};

/// Middle of the nearest free place for a label by `dot`: on the paper, and with none of the
/// `covered` points beneath it. Empty when there is none within a third of the paper.
/// Units: pixels. Source: none needed. Fails: never.
[[nodiscard]] std::optional<Eigen::Vector2d> free_place(
    const Eigen::Vector2d& dot, const LabelRoom& room, const std::vector<Eigen::Vector2d>& covered
);

} // namespace flangewright::vtk
