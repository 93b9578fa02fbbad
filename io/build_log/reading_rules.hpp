// What a reading can be, so that a slip of the pen or of the unit is found.
#pragma once

#include "io/build_log/readings.hpp"

namespace flangewright::build_log {

/// The first thing in a row that can't be. Units: mm, rad. Source: bounds far beyond what a part
/// can do; docs/build-log.md lists them. Fails: never.
[[nodiscard]] std::optional<key_file::InputProblem>
problem_of(const Reading& reading, const MeasuredPart& part, const std::string& file);

} // namespace flangewright::build_log
