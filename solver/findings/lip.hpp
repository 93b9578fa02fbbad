// The return lip at a station: its angle to the flange, its depth, and the flange's depth with it.
#pragma once

#include "solver/findings/flange_angle.hpp"
#include "solver/findings/part_shape.hpp"
#include "solver/job/job.hpp"

namespace flangewright::findings {

/// Figures of the lip at one station. mm, rad.
struct LipReading {
    double angle = 0; ///< between flange and lip; 0 straight on, pi/2 square
    double depth = 0; ///< outside of the bend to the lip's free edge, along the lip
    double flange_depth = 0; ///< outside face of the web to the lip's outside, along the flange
    bool is_sparse = false; ///< the lip's line rests on fewer than three nodes
};

/// The straight part of the lip in flat distance at a station (of a blank of one width: any): 40 to
/// 90 per cent past the end of its bend. Units: mm. Source: as fit_window(). Fails: never; the job
/// must have a return bend.
[[nodiscard]] FitWindow lip_window(const job::Job& job, double station = 0);

/// From the fitted lines of flange and lip; depths are taken to where the outsides of web, flange
/// and lip meet. `edge` is the free edge in the section. Units: mm, rad. Source: design definitions
/// (docs/theory-findings.md, "Lip"). Fails: never.
[[nodiscard]] LipReading read_lip(
    const FlangeLine& flange,
    const FlangeLine& lip,
    const Eigen::Vector2d& edge,
    double web_outer_face,
    job::LipSide side
);

} // namespace flangewright::findings
