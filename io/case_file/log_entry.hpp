// What the page of record says of a part that no figure hangs on.
#pragma once

#include <string>

namespace flangewright::case_file {

/// [log] of a case file; what is empty is a blank line on the page, to be filled in by hand.
struct LogEntry {
    std::string drawing; ///< number and issue
    std::string part; ///< number, or which piece
    std::string lot; ///< of the sheet
    std::string certificate;
};

} // namespace flangewright::case_file
