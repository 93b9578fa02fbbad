// Numbers as few bytes, for the data that travel inside a page.
#pragma once

#include <Eigen/Core>

#include <string>
#include <vector>

namespace flangewright::part_view {

/// Where a shape lies: a cube that holds all its points.
struct Cube {
    Eigen::Vector3d low = Eigen::Vector3d::Zero(); ///< mm
    double span = 1; ///< mm, > 0
};

/// The smallest cube round all shapes. Units: mm. Source: none needed. Fails: never; points that
/// are no numbers are passed over.
[[nodiscard]] Cube cube_round(const std::vector<const Eigen::Matrix3Xd*>& shapes);

/// Two bytes a coordinate, low byte first: 0 to 65535 over the cube's span, node by node. Units: mm
/// in. Source: none needed. Fails: never; what is no number lies at the cube's corner.
[[nodiscard]] std::string packed_points(const Eigen::Matrix3Xd& points, const Cube& cube);

/// The byte that stands for no figure.
inline constexpr int no_figure_byte = 255;

/// One byte a figure: 0 to 254 from `low` to `top`, 255 for what is no number. Units: as given.
/// Source: none needed. Fails: never; figures beyond the ends stand at the ends.
[[nodiscard]] std::string
packed_figures(const Eigen::Ref<const Eigen::VectorXd>& figures, double low, double top);

/// Whole numbers of two bytes each, four if `is_wide`, low byte first. Units: none.
/// Source: none needed. Fails: never, for numbers from 0.
[[nodiscard]] std::string packed_numbers(const std::vector<int>& numbers, bool is_wide);

} // namespace flangewright::part_view
