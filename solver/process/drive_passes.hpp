// A drive's passes: how far the tool goes in each, and where on the step's path each ends.
#pragma once

#include "solver/job/job.hpp"
#include "solver/tooling/surface/worked_tool.hpp"

#include <string>
#include <vector>

namespace flangewright::process {

/// Angles reached after each pass; one pass when the job names none. Units: rad. Source: none
/// needed. Fails: never.
[[nodiscard]] std::vector<double> pass_angles(const job::Drive& drive);

/// Height of the wiper's underside at which a flange that lies round the nose stands at an angle:
/// the wiper's corner touches the straight flange or, past that, its edge. Square and what the
/// channel does not let the flange reach give the full stroke. Units: mm, rad. Source: plane
/// geometry, derived here (docs/theory.md, "Driving in passes"). Fails: never.
[[nodiscard]] double wiper_underside(const job::Job& job, double angle);

/// Strokes before the first pass and after each: heights of the wiper's underside in mm, angles of
/// the leaf in rad. Source: as wiper_underside(). Fails: never.
[[nodiscard]] std::vector<double> pass_strokes(const job::Job& job);

/// Share of the step's path at which each pass ends. Worked along, all passes take the same share;
/// evenly, what their stroke takes of the whole one. Units: none. Source: none needed. Fails:
/// never.
[[nodiscard]] std::vector<double> pass_ends(const job::Job& job);

/// The stretch a worked drive's front travels; a drive that is not even. Units: mm. Source: as
/// wiper_underside(). Fails: never.
[[nodiscard]] tooling::WorkedStretch stretch_of(const job::Job& job);

/// "evenly", "from start", "from end", "ends first". Units: none. Source: design words. Fails:
/// never.
[[nodiscard]] std::string word_for(job::DriveOrder order);

/// Whether a run tells what each pass does. Source: none needed. Fails: never.
[[nodiscard]] bool has_passes(const job::Drive& drive);

} // namespace flangewright::process
