// Whether the pieces of a chain leave room for the flange, the web and each other.
#pragma once

#include "io/case_file/geometry_check.hpp"

namespace flangewright::case_file {

/// Checks of a finished job whose bend line is a chain; reports the first thing that does not fit.
void check_chain(ReadCase& parts, const job::Job& job);

} // namespace flangewright::case_file
