// Where a command writes: what was asked for, and what goes on meanwhile.
#pragma once

#include <iosfwd>

namespace flangewright::command_line {

/// The two streams of a terminal program.
struct Terminal {
    std::ostream& out;
    std::ostream& err;
    bool err_is_screen = false; ///< a person is watching: lines may be drawn again
};

} // namespace flangewright::command_line
