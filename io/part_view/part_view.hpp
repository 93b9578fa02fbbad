// The part in the page, to be turned by hand: one section with data, library and script inside.
#pragma once

#include "io/units/length.hpp"
#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

#include <string>

namespace flangewright::part_view {

/// A section for the page that works without a network: the shapes at the end of each step (and on
/// the way, where there is room), coloured by a field that is chosen. Where the browser has no
/// scripts or can't draw in space it shows a sentence that says so. Empty when no shape is known.
/// Units: the user's own. Source: docs/outputs.md, "The part in the page". Fails: never.
[[nodiscard]] std::string
part_view(const job::Job& job, const process::JobResult& result, units::LengthUnit unit);

} // namespace flangewright::part_view
