// What every page must warn of.
#pragma once

#include <string>

namespace flangewright::sheet_page {

/// The cautions, short. Units: none. Source: docs/outputs.md, "Cautions". Fails: never.
[[nodiscard]] std::string cautions_part();

/// The one line that stands under the title. Units: none. Source: as cautions_part. Fails: never.
[[nodiscard]] std::string caution_line();

} // namespace flangewright::sheet_page
