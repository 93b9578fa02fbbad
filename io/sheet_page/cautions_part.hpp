// What every page must warn of.
#pragma once

#include <span>
#include <string>

namespace flangewright::sheet_page {

/// The cautions, short. Units: none. Source: docs/outputs.md, "Cautions". Fails: never.
[[nodiscard]] std::string cautions_part();

/// Each of them by itself. Units: none. Source: as cautions_part. Fails: never.
[[nodiscard]] std::span<const char* const> cautions();

/// The sentence that stands under every title. Units: none. Source: as cautions_part. Fails: never.
[[nodiscard]] std::string caution_words();

/// The one line that stands under the title. Units: none. Source: as cautions_part. Fails: never.
[[nodiscard]] std::string caution_line();

} // namespace flangewright::sheet_page
