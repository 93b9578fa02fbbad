#include "io/sheet_page/html.hpp"

#include <fmt/format.h>

#include <array>

namespace flangewright::sheet_page {

std::string safe(std::string_view text) {
    std::string shown;
    shown.reserve(text.size());
    for (const char letter : text) {
        switch (letter) {
        case '&':
            shown += "&amp;";
            break;
        case '<':
            shown += "&lt;";
            break;
        case '>':
            shown += "&gt;";
            break;
        case '"':
            shown += "&quot;";
            break;
        case '\'':
            shown += "&#39;";
            break;
        default:
            shown += static_cast<unsigned char>(letter) < 0x20 || letter == 0x7F ? ' ' : letter;
        }
    }
    return shown;
}

std::string base64(std::string_view bytes) {
    constexpr std::string_view letters =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t at = 0; at < bytes.size(); at += 3) {
        const std::size_t n = std::min<std::size_t>(3, bytes.size() - at);
        unsigned int block = 0;
        for (std::size_t i = 0; i < 3; ++i) {
            block = block << 8U | (i < n ? static_cast<unsigned char>(bytes[at + i]) : 0U);
        }
        for (std::size_t i = 0; i < 4; ++i) {
            text += i <= n ? letters[block >> (18 - 6 * i) & 63U] : '=';
        }
    }
    return text;
}

std::string row(const std::string& head, std::initializer_list<std::string> cells) {
    std::string text = "<tr><th scope=\"row\">" + head + "</th>";
    for (const std::string& cell : cells) {
        text += "<td>" + cell + "</td>";
    }
    return text + "</tr>\n";
}

std::string
section(const std::string& name, const std::string& heading, const std::string& content) {
    return fmt::format(
        "<section class=\"{}\">\n<h2>{}</h2>\n{}</section>\n", name, safe(heading), content
    );
}

} // namespace flangewright::sheet_page
