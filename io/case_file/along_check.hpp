// What varies along the bend line: whether its stations, slopes and neighbours make sense.
#pragma once

#include "io/case_file/geometry_check.hpp"

namespace flangewright::case_file {

/// Checks that need only what is written: a depth or wall that varies against the other sections.
void check_along_written(ReadCase& parts);

/// Checks of the finished job; false when something was wrong and has been reported.
[[nodiscard]] bool along_fits(ReadCase& parts, const job::Job& job);

} // namespace flangewright::case_file
