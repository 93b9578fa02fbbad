// Flat widths along the bend line that should give a wanted flange depth, before anything is
// solved.
#pragma once

#include "solver/job/job.hpp"

namespace flangewright::process {

/// Net flat width, without trim allowance, over the station: at each place the hand development
/// for the depth wanted there, the wall's angle there, and the line's curvature, averaged over one
/// flat width since the edge bridges a change of curvature over about that length. `wanted` without
/// points: the job's depth all along. With a lip that of flange and lip together. One point when
/// all are alike. Units: mm. Source: derived here (docs/templates.md, "First guess");
/// findings::developed_flange_width(), findings::develop_lip(). Fails: never for a job that was
/// checked.
[[nodiscard]] outline::Profile
guessed_net_widths(const job::Job& job, const outline::Profile& wanted);

/// Flat width at which a lip's bend begins, in the same way. Units: mm. Source: as
/// guessed_net_widths(). Fails: a job without return bend is a caller's bug.
[[nodiscard]] outline::Profile guessed_lip_begins(const job::Job& job);

} // namespace flangewright::process
