// Whether the sheet's rolling direction fits an end at which the part goes on.
#pragma once

#include "io/case_file/geometry_check.hpp"

namespace flangewright::case_file {

/// An end that continues is a plane of symmetry, and a rolled sheet is alike on both sides of it
/// only if it was rolled along the bend line or square to it there.
void check_rolling_direction(key_file::TableReader& sheet_table, const job::Job& job);

} // namespace flangewright::case_file
