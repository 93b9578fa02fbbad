// A small drawing of how the blank lies in the sheet.
#pragma once

#include <string>

namespace flangewright::sheet_page {

/// An SVG drawing inside the page: the bend line in the middle of the part with the flange above
/// it, and the arrow of the rolling direction, to be marked on the blank. Units: rad. Source: SVG
/// 1.1 (W3C), from memory. Fails: never.
[[nodiscard]] std::string lay_sketch(double rolling_direction);

} // namespace flangewright::sheet_page
