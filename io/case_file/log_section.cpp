#include "io/case_file/sections.hpp"

namespace flangewright::case_file {

namespace {

std::string line_of(key_file::TableReader& table, const std::string& key) {
    constexpr std::size_t longest = 60; // bytes: it stands in one cell of the page
    const std::string text = table.text(key, key_file::Need::optional).value_or("");
    const bool is_filled = text.find_first_not_of(' ') != std::string::npos;
    const bool is_one_line = text.find_first_of("\n\r\t") == std::string::npos;
    if (table.holds_text(key) && (!is_filled || !is_one_line || text.size() > longest)) {
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
