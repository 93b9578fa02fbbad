// The scripts that go into the page, put into the program when it is built.
#pragma once

#include <string>

namespace flangewright::part_view {

/// The drawing library, its controls for turning, its licence, and our own script. Units: none.
/// Source: Debian's package libjs-three (its copyright file); io/part_view/viewer.js. Fails: never.
[[nodiscard]] const std::string& library_script();
[[nodiscard]] const std::string& controls_script();
[[nodiscard]] const std::string& library_licence();
[[nodiscard]] const std::string& viewer_script();

} // namespace flangewright::part_view
