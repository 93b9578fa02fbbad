// Reads the lines and curves of one layer from a drawing exchange file (DXF); its .cpp is the only
// file that includes the library for reading it.
#pragma once

#include "io/drawing/stroke.hpp"
#include "mesh/base/result.hpp"

#include <filesystem>
#include <string>
#include <string_view>

namespace flangewright::drawing {

/// Larger files are no drawings of one part.
inline constexpr std::size_t largest_drawing = 20'000'000; // bytes

/// Lines, arcs, circles, polylines with arcs and splines of a layer (letters of either case); what
/// stands in blocks is left out. Polylines of straight parts that turn by less than 15 degrees at a
/// time are taken as points of a smooth curve.
/// Units: as drawn. Source: docs/case-file.md. Fails: when the text is no DXF.
[[nodiscard]] Result<Drawing, DrawingProblem>
read_drawing(std::string_view text, const std::string& layer);

/// The same from a file. Fails: also when it is missing, no plain file, or too large.
[[nodiscard]] Result<Drawing, DrawingProblem>
read_drawing_file(const std::filesystem::path& path, const std::string& layer);

} // namespace flangewright::drawing
