// How the rolling direction lies to the bend line, which turns along it.
#pragma once

#include "solver/job/job.hpp"

namespace flangewright::findings {

/// Angle from the bend line's tangent at a station, toward the flange, to the rolling direction of
/// the flat blank. Units: mm, rad. Source: job.hpp (Sheet::rolling_direction). Fails: never.
[[nodiscard]] double grain_angle(const job::Job& job, double station);

} // namespace flangewright::findings
