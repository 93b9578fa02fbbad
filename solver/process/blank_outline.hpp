// The flat outline whose formed flange, or lip, has the wanted depth: guess, form, correct, form
// again.
#pragma once

#include "solver/process/formed_part.hpp"

#include <vector>

namespace flangewright::process {

/// How near and how long.
struct OutlineSearch {
    double within = 0.4; ///< largest miss of the depth that will do, mm
    int most_rounds = 5; ///< parts formed at most
};

/// Wanted and reached at a station, mm.
struct DepthAt {
    double station = 0;
    double wanted = 0;
    double reached = 0;

    [[nodiscard]] double miss() const { return reached - wanted; }
};

/// The miss that is largest, and where. mm.
struct LargestMiss {
    double miss = 0; ///< signed; positive: too deep
    double station = 0;
};

/// Units: mm. Source: none needed. Fails: never; none of nothing.
[[nodiscard]] LargestMiss largest_of(const std::vector<DepthAt>& depths);

/// The best outline that was formed.
struct BlankOutline {
    outline::Profile net; ///< flat width that forms to the wanted depth; one point: alike all along
    std::vector<DepthAt> depths; ///< of the part formed from it, trimmed to the net line; with a
                                 ///< lip those of the lip
    double largest_miss = 0; ///< of `depths`, mm, without sign
    double miss_station = 0; ///< where
    int n_rounds = 0; ///< parts formed
    StopReason reason = StopReason::done; ///< of the last part; unless done there may be no depths
    std::vector<DepthAt> flange_depths = {}; ///< to the lip's outside, which blocks and springback
                                             ///< decide, not the width; only with a lip
    std::vector<outline::ProfilePoint> lip_angles = {}; ///< rad; only with a lip
    std::vector<findings::FormedHole> holes = {}; ///< of the flange, as that part has them
    bool leaves_openings_out = false; ///< formed without the flange's holes, notches and tabs

    /// All of it: the flange's depth, too, where a lip is. Units: mm. Source: none needed. Fails:
    /// never.
    [[nodiscard]] bool meets(double within) const;
};

/// The job with a net outline, its trim allowance added to it; a lip begins where it did. Units:
/// mm. Source: none needed. Fails: never.
[[nodiscard]] job::Job with_net_widths(const job::Job& job, const outline::Profile& net);

/// The job as it is formed in the search: with a trim at its end where an allowance is left on and
/// no step takes it off. Units, source: none needed. Fails: never.
[[nodiscard]] job::Job job_to_form(const job::Job& job);

/// The same without holes in the flange, notches and tabs. Units, source: none needed. Fails:
/// never.
[[nodiscard]] job::Job without_flange_openings(const job::Job& job);

/// Corrects the flat width by the miss of the depth at stations about a quarter of a width apart
/// until the largest miss is small enough, or no smaller than before, and gives the best outline
/// formed. Of a flange with a lip it is the lip's depth that is met. `wanted` without points: the
/// job's depth all along. Where the mesh library or the balance of forces refuses the part with its
/// flange's openings, it is formed without them. Units: mm. Source: derived here
/// (docs/templates.md, "Search"). Fails: as the former.
[[nodiscard]] Result<BlankOutline> find_outline(
    const job::Job& job,
    const outline::Profile& wanted,
    const OutlineSearch& search,
    const Former& former
);

} // namespace flangewright::process
