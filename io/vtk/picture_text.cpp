#include "io/vtk/picture_text.hpp"

namespace flangewright::vtk {

namespace {

/// Bytes of the character that starts here; 0 when it is no valid start or is cut off.
std::size_t length_at(const std::string& text, std::size_t at) {
    const auto first = static_cast<unsigned char>(text[at]);
    std::size_t length = 0;
    if (first < 0x80) {
        length = 1;
    } else if (first >= 0xC2 && first < 0xE0) {
        length = 2;
    } else if (first >= 0xE0 && first < 0xF0) {
        length = 3;
    } else if (first >= 0xF0 && first < 0xF5) {
        length = 4;
    }
    if (at + length > text.size()) {
        return 0;
    }
    for (std::size_t i = 1; i < length; ++i) {
        if ((static_cast<unsigned char>(text[at + i]) & 0xC0) != 0x80) {
            return 0;
        }
    }
    return length;
}

bool is_control(const std::string& text, std::size_t at) {
    const auto byte = static_cast<unsigned char>(text[at]);
    return byte < 0x20 || byte == 0x7F;
}

} // namespace

std::string printable(const std::string& text, std::size_t longest) {
    std::string shown;
    std::size_t n_shown = 0;
    for (std::size_t at = 0; at < text.size(); ++n_shown) {
        if (n_shown == longest) {
            return shown + "...";
        }
        const std::size_t length = length_at(text, at);
        if (length == 0) {
            shown += '?';
        } else if (is_control(text, at)) {
            shown += ' ';
        } else {
            shown += text.substr(at, length);
        }
        at += length == 0 ? 1 : length;
    }
    return shown;
}

} // namespace flangewright::vtk
