// How to work the flange's edge so that the web sits flat, in plain sentences.
#pragma once

#include "io/units/length.hpp"
#include "solver/process/job_result.hpp"

#include <string>
#include <vector>

namespace flangewright::tables {

/// The heading these sentences stand under.
inline constexpr const char* cure_heading = "Which way to work it";

/// Of which state of the part this speaks, when it is not the last: "Before the lip is bent, with
/// the part trimmed to the net edge:"; else empty. Units: none. Source: design words. Fails: never.
[[nodiscard]] std::string cure_occasion(const process::WebCure& cure, const process::JobResult& of);

/// What to do to each zone by growing station; empty where there is nothing to be done.
/// Units: the user's own, %. Source: docs/theory.md, "Cure of the web". Fails: never.
[[nodiscard]] std::vector<std::string>
cure_steps(const process::WebCure& cure, units::LengthUnit unit);

/// What that does to web, angle and edge, or that it does not bring the web flat. Units, source,
/// fails as above.
[[nodiscard]] std::string cure_outcome(const process::WebCure& cure, units::LengthUnit unit);

/// How far this advice goes. Units: none. Source: common practice, no source. Fails: never.
[[nodiscard]] std::string cure_caution();

} // namespace flangewright::tables
