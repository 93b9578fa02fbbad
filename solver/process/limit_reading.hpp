// The figure of a search out of a whole run or a trial, and how it stands to what is wanted.
#pragma once

#include "solver/process/value_search.hpp"

namespace flangewright::process {

/// What is compared, and what is told.
struct Reading {
    double sign = 0; ///< figure less what is wanted; at most 0: the share is kept
    double figure = 0;
};

/// The limit whose share is largest for what it may be; nothing when one is not known. `wanted` 0:
/// all that the verdict calls `holds`. Units: none. Source: findings::share_that_holds(). Fails: as
/// said.
[[nodiscard]] std::optional<Reading>
worst_of(const std::vector<LimitAnswer>& limits, double wanted, double close_share);

/// Of a whole run. Units: rad, none. Source: none needed. Fails: nothing when the part is never let
/// go, or a limit is not known.
[[nodiscard]] std::optional<Reading>
read_run(const ValueSearch& search, const JobResult& run, double close_share);

/// As the trials say it beside the first whole run. Units: rad, none. Source: none needed. Fails:
/// nothing when a limit is not known.
[[nodiscard]] std::optional<Reading>
read_expected(const ValueSearch& search, const Expected& expected, double close_share);

} // namespace flangewright::process
