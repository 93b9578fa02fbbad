// What `log` says of a part that was measured, on the page and on the terminal.
#pragma once

#include "io/command_line/logged_part.hpp"
#include "io/sheet_page/measured_part.hpp"

#include <string>
#include <vector>

namespace flangewright::command_line {

/// Sentences below the table: where the readings are from, what was not read, what the edge says of
/// its limit, what earlier parts say.
[[nodiscard]] std::vector<std::string>
log_notes(const LoggedPart& part, const std::vector<std::string>& experience);

/// The table and the sentences, in lines for a terminal.
[[nodiscard]] std::string log_text(
    const LoggedPart& part,
    const std::vector<sheet_page::MeasuredRow>& table,
    const std::vector<std::string>& experience
);

} // namespace flangewright::command_line
