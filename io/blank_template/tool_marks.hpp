// What all sheets of the tools share.
#pragma once

#include <numbers>

namespace flangewright::blank_template {

/// A wall or flange at this angle stands square, rad.
inline constexpr double square = 0.5 * std::numbers::pi;

/// Stands beside every tool.
inline constexpr const char* tool_caution =
    "A forming estimate: the drawing and approved data decide. Check the bars before you cut.";

} // namespace flangewright::blank_template
