// Text as pictures can show it.
#pragma once

#include <string>

namespace flangewright::vtk {

/// What stands around a picture.
struct PictureText {
    std::string title; ///< a few words
    std::string subtitle; ///< one plain sentence
    std::string footer; ///< case, version, caution
};

/// Drops control characters, puts "?" for bytes that are not UTF-8, and shortens to so many
/// characters. Units: none. Source: UTF-8, RFC 3629. Fails: never.
[[nodiscard]] std::string printable(const std::string& text, std::size_t longest = 110);

} // namespace flangewright::vtk
