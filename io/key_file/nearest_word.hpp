// Guesses which known word a user meant.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace flangewright::key_file {

/// Number of letters to insert, delete, change or swap. Source: Damerau 1964, restricted form.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// The closest word when it is close enough to be meant (at most a third of its letters differ).
[[nodiscard]] std::optional<std::string>
nearest_word(std::string_view written, std::span<const std::string> known);

/// "a, b or c".
[[nodiscard]] std::string listed(std::span<const std::string> words);

} // namespace flangewright::key_file
