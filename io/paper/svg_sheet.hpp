// A drawing as SVG at real size.
#pragma once

#include "io/paper/sheet.hpp"

#include <string>

namespace flangewright::paper {

/// One unit is one millimetre; what belongs to one layer stands in one group with the layer's name.
/// Bars of 100 mm and 4 in stand below the drawing, to check the print with. Units: mm. Source: SVG
/// 1.1 (W3C), from memory. Fails: as Sheet::extent().
[[nodiscard]] std::string svg_of(const Sheet& sheet);

} // namespace flangewright::paper
