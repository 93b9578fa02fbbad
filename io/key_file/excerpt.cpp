#include "io/key_file/excerpt.hpp"

#include <algorithm>

namespace flangewright::key_file {

std::string on_one_line(std::string_view text) {
    std::string shown(text);
    std::replace_if(
        shown.begin(),
        shown.end(),
        [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; },
        '?'
    );
    return shown;
}

std::string excerpt(std::string_view text) {
    constexpr std::size_t longest = 60;
    if (text.empty()) {
        return "\"\"";
    }
    std::size_t end = std::min(text.size(), longest);
    while (end > 0 && end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) {
        --end;
    }
    return on_one_line(text.substr(0, end)) + (end < text.size() ? "..." : "");
}

std::string quoted_excerpt(std::string_view text) {
    return text.empty() ? excerpt(text) : "\"" + excerpt(text) + "\"";
}

} // namespace flangewright::key_file
