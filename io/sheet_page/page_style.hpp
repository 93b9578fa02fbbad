// How the page looks on the screen and on paper.
#pragma once

#include <string_view>

namespace flangewright::sheet_page {

/// Style sheet of the page; no colour carries a meaning. Units: none. Source: CSS Paged Media.
/// Fails: never.
[[nodiscard]] std::string_view page_style();

} // namespace flangewright::sheet_page
