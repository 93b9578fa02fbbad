// Whether holes, notches and tabs lie where the sheet leaves room for them.
#pragma once

#include "io/case_file/geometry_check.hpp"

namespace flangewright::case_file {

/// Openings of the job against bend, edges, ends and one another; each needs two thicknesses of
/// metal round it (common practice, no source). Reports what is wrong.
void check_openings(ReadCase& parts, const job::Job& job);

/// Notches of the drawn reliefs, whose depth is known now that the flat width is; job and parts get
/// them. Reports those that are not open at the edge.
void settle_reliefs(ReadCase& parts, job::Job& job);

} // namespace flangewright::case_file
