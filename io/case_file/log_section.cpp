#include "io/case_file/sections.hpp"

#include <algorithm>

namespace flangewright::case_file {

namespace {

/// Letters of UTF-8 text: all bytes but those that go on with a letter.
std::ptrdiff_t n_letters(const std::string& text) {
    return std::ranges::count_if(text, [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    });
}

std::string line_of(key_file::TableReader& table, const std::string& key) {
    constexpr std::ptrdiff_t longest = 60; // it stands in one cell of the page
    std::string text = table.text(key, key_file::Need::optional).value_or("");
    const bool is_filled = text.find_first_not_of(' ') != std::string::npos;
    const bool is_one_line = text.find_first_of("\n\r\t") == std::string::npos;
    if (table.holds_text(key) && (!is_filled || !is_one_line || n_letters(text) > longest)) {
        table.object(key, "1 to 60 letters on one line", "write the number, or leave the key out");
    }
    return text;
}

} // namespace

LogEntry read_log(key_file::TableReader& table) {
    LogEntry entry;
    entry.drawing = line_of(table, "drawing");
    entry.part = line_of(table, "part");
    entry.lot = line_of(table, "lot");
    entry.certificate = line_of(table, "certificate");
    table.finish();
    return entry;
}

} // namespace flangewright::case_file
