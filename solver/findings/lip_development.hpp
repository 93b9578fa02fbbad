// How wide the flat blank must be for a flange with a return lip, and where the lip's edge ends up.
#pragma once

#include "solver/job/job.hpp"

namespace flangewright::findings {

// Of a line of several radii the tightest place counts, as in flange_development.hpp. All below
// need a job with a return bend and a flange depth, which with a lip is that to the lip's outside.

/// The lip on the flat blank.
struct LipDevelopment {
    double bend_begin = 0; ///< flat width from the flange's bend tangent to the lip's
    double width = 0; ///< flat width from there to the lip's net edge
};

/// Flat width that ends up round the second nose, the mid-surface keeping its length.
/// Units: mm. Source: as bend_allowance(). Fails: never.
[[nodiscard]] double lip_bend_allowance(const job::Job& job);

/// Lip's bend tangent to the mould point of flange and lip. Units: mm. Source: as mould_setback().
/// Fails: never below 180 deg.
[[nodiscard]] double lip_setback(const job::Job& job);

/// Formed length of the flange between its two bends. Units: mm. Source: plane geometry. Fails:
/// below zero when the flange depth is less than both bends take.
[[nodiscard]] double straight_between_bends(const job::Job& job);

/// Each strip of the lip stretches (or shrinks) along the line to the radius it ends on and narrows
/// by half of that log strain. Units: mm. Source: derived here (docs/theory-findings.md, "Hand
/// calculation"). Fails: infinite widths when a concave line's radius leaves no metal for that lip.
[[nodiscard]] LipDevelopment develop_lip(const job::Job& job);

/// Engineering strain of the lip's net edge by the ratio of its radii, formed over flat.
/// Units: -. Source: stretch-flange-closed-forms. Fails: as develop_lip(): infinite then.
[[nodiscard]] double lip_edge_stretch(const job::Job& job);

} // namespace flangewright::findings
