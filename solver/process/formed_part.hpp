// The part that a blank forms to, as far as an outline is looked for: depths and holes.
#pragma once

#include "mesh/base/progress.hpp"
#include "mesh/base/result.hpp"
#include "solver/findings/hole_place.hpp"
#include "solver/process/job_result.hpp"

#include <functional>
#include <vector>

namespace flangewright::process {

/// What was read off a formed part. Stations rise; all in mm, rad.
struct FormedPart {
    /// Station and what the flat width decides there: the flange's depth, with a lip the lip's.
    std::vector<outline::ProfilePoint> depths;
    StopReason reason = StopReason::done; ///< without depths unless done
    std::vector<outline::ProfilePoint> flange_depths = {}; ///< to the lip's outside; only with one
    std::vector<outline::ProfilePoint> lip_angles = {}; ///< flange to lip; only with one
    std::vector<findings::FormedHole> holes = {}; ///< of the flange, that were formed with it
};

/// Forms the job's blank. Replaceable, so that the search is tested without a solver.
using Former = std::function<Result<FormedPart>(const job::Job&)>;

/// Whether the edge at a station is a notch's or a tab's, not the flange's own. Units: mm. Source:
/// none needed. Fails: never.
[[nodiscard]] bool is_at_opening(const job::Blank& blank, double station);

/// Depths and holes after the last step. Units: mm. Source: docs/theory-findings.md, "Flange
/// depth", "Lip". Fails: never; a run that did not reach its end gives its reason alone.
[[nodiscard]] FormedPart read_formed(const job::Job& job, const JobResult& run);

/// The former that solves the job, all its steps. Units: mm. Source: docs/theory.md. Fails: when
/// the mesh library refuses.
[[nodiscard]] Former solved_former(int n_threads, const Monitor& monitor);

} // namespace flangewright::process
