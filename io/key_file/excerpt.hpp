// Shows a piece of a user's text on one line of ours.
#pragma once

#include <string>
#include <string_view>

namespace flangewright::key_file {

/// In quotes, at most 60 bytes, cut between whole characters, control characters as "?".
[[nodiscard]] std::string quoted_excerpt(std::string_view text);

/// The same without quotes; of an empty text only the quotes are left, so that it can be seen.
[[nodiscard]] std::string excerpt(std::string_view text);

/// Control characters as "?", so that a line stays one line.
[[nodiscard]] std::string on_one_line(std::string_view text);

} // namespace flangewright::key_file
