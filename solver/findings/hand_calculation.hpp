// The job by hand: what a careful mechanic would work out before any finite element.
#pragma once

#include "solver/findings/findings.hpp"
#include "solver/findings/flange_development.hpp"
#include "solver/job/job.hpp"

namespace flangewright::findings {

/// Edge stretch by the radius ratio, bend allowance with the mid-surface kept, springback of an
/// ideal strip in plane strain bent to the nose with the job's own hardening law. Holds for a long
/// arc or straight away from free ends; of a line of several radii, for a long arc of its tightest
/// one (smallest concave, else smallest convex); where depth or wall angle varies, for the largest
/// of each. A rolled sheet has its own yield law: of the tightest part the place counts where the
/// edge changes its thickness most. `flat_width` is the blank's when given, else developed from the
/// flange depth. `block_angle_for_wanted` is infinite when the strip springs back all the way.
/// Units: mm, N, MPa, rad, strains in -. Source: stretch-flange-closed-forms,
/// marciniak-duncan-hu-2002 (from memory), derived here (docs/theory-findings.md, "Hand
/// calculation"). Fails: infinite edge stretch and width when a concave line has no room for the
/// flange.
[[nodiscard]] HandCalculation calculate_by_hand(const job::Job& job);

} // namespace flangewright::findings
