#include "io/key_file/value_place.hpp"

#include <algorithm>
#include <string>

namespace flangewright::key_file {

namespace {

bool is_one_of(char c, std::string_view ones) {
    return ones.find(c) != std::string_view::npos;
}

/// Past the closing quote; a text of several lines has three of them.
std::size_t end_of_text(std::string_view text, std::size_t at) {
    const char quote = text[at];
    const std::string three(3, quote);
    if (text.substr(at).starts_with(three)) {
        const std::size_t end = text.find(three, at + 3);
        return end == std::string_view::npos ? text.size() : end + 3;
    }
    for (++at; at < text.size() && text[at] != quote; ++at) {
        at += quote == '"' && text[at] == '\\' ? 1 : 0;
    }
    return std::min(at + 1, text.size());
}

/// "[block]" gives "block"; nothing for a line that begins no section.
std::string_view section_of(std::string_view line) {
    line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
    const std::size_t end = line.find(']');
    if (!line.starts_with('[') || line.starts_with("[[") || end == std::string_view::npos) {
        return {};
    }
    return line.substr(1, end - 1);
}

} // namespace

std::size_t offset_of(std::string_view text, Place place) {
    std::size_t at = 0;
    for (int line = 1; line < place.line && at < text.size(); ++at) {
        line += text[at] == '\n' ? 1 : 0;
    }
    for (int column = 1; column < place.column && at < text.size(); ++column) {
        do {
            ++at;
        } while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U);
    }
    return at;
}

std::size_t end_of_value(std::string_view text, std::size_t at) {
    if (at < text.size() && is_one_of(text[at], "\"'")) {
        return end_of_text(text, at);
    }
    if (at >= text.size() || !is_one_of(text[at], "[{")) {
        return std::min(text.find_first_of(" \t\r\n,]}#", at), text.size());
    }
    int depth = 0;
    while (at < text.size()) {
        const char c = text[at];
        if (is_one_of(c, "\"'")) {
            at = end_of_text(text, at);
            continue;
        }
        at = c == '#' ? std::min(text.find('\n', at), text.size() - 1) : at;
        depth += is_one_of(c, "[{") ? 1 : (is_one_of(c, "]}") ? -1 : 0);
        ++at;
        if (depth == 0) {
            break;
        }
    }
    return at;
}

std::optional<std::size_t> below_head(std::string_view text, std::string_view section) {
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        if (section_of(text.substr(at, end - at)) == section) {
            return std::min(end + 1, text.size());
        }
        at = end + 1;
    }
    return std::nullopt;
}

} // namespace flangewright::key_file
