// Where a value of a file of keys begins and ends in its text.
#pragma once

#include "io/key_file/document.hpp"

#include <optional>
#include <string_view>

namespace flangewright::key_file {

/// Bytes before a place; columns count characters, of which some have several bytes.
[[nodiscard]] std::size_t offset_of(std::string_view text, Place place);

/// One past the last byte of the value that begins there: a text, a list, braces or a bare word.
[[nodiscard]] std::size_t end_of_value(std::string_view text, std::size_t at);

/// Just behind the line that begins the section; nothing where there is none.
[[nodiscard]] std::optional<std::size_t>
below_head(std::string_view text, std::string_view section);

} // namespace flangewright::key_file
