// The table of readings before anything is read.
#pragma once

#include "io/units/length.hpp"
#include "solver/job/job.hpp"

#include <string>

namespace flangewright::build_log {

/// A row for the whole part and rows for some stations along the line after each step; steps and
/// places are filled in, figures blank. Units: mm, or inches for an inch user. Source:
/// docs/build-log.md. Fails: never.
[[nodiscard]] std::string blank_table(const job::Job& job, units::LengthUnit unit);

} // namespace flangewright::build_log
