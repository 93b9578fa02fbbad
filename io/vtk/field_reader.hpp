// Reads a shape and one figure back from a field file.
#pragma once

#include <Eigen/Core>

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace flangewright::vtk {

/// A sheet's mid-surface and a figure per node.
struct ReadShape {
    Eigen::Matrix3Xd positions; ///< mm
    std::vector<std::array<int, 4>> quads;
    Eigen::VectorXd figure; ///< as the file has it
};

/// Units: as the file's. Source: docs/outputs.md, "Field files". Fails: nothing when the file can't
/// be read, holds other cells than quadrilaterals or lacks the figure.
[[nodiscard]] std::optional<ReadShape>
read_shape(const std::filesystem::path& file, const std::string& figure);

} // namespace flangewright::vtk
