// Text as a file of keys and values wants it.
#pragma once

#include <string>
#include <string_view>

namespace flangewright::key_file {

/// In quotes as TOML wants it; control characters become blanks. Units: none. Source: TOML 1.0,
/// basic strings. Fails: never; the text must be UTF-8 to be read again.
[[nodiscard]] std::string quoted(std::string_view text);

} // namespace flangewright::key_file
