// The variants' parts side by side, all in one scale of size and one scale of colour.
#pragma once

#include "io/vtk/field_reader.hpp"

#include <string>
#include <vector>

namespace flangewright::compare {

/// One part; the figure is drawn as it is.
struct DrawnPart {
    std::string caption;
    vtk::ReadShape shape;
};

/// What they share.
struct PartDrawings {
    std::string scale_title; ///< figure and unit
    std::vector<DrawnPart> parts;
};

/// A figure element with an SVG for each part and one with the scale of colours; empty without
/// parts. Seen on the outer face from the flange's side and above, in parallel. Units: mm, the
/// figure as its title says. Source: none needed. Fails: never.
[[nodiscard]] std::string part_drawings(const PartDrawings& drawings);

} // namespace flangewright::compare
