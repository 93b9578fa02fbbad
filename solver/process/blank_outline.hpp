// The flat outline whose formed flange has the wanted depth: guess, form, correct, form again.
#pragma once

#include "mesh/base/progress.hpp"
#include "mesh/base/result.hpp"
#include "solver/process/job_result.hpp"

#include <functional>
#include <vector>

namespace flangewright::process {

/// How near and how long.
struct OutlineSearch {
    double within = 0.4; ///< largest miss of the depth that will do, mm
    int most_rounds = 5; ///< parts formed at most
};

/// The depth of a formed part along its line.
struct FormedPart {
    std::vector<outline::ProfilePoint> depths; ///< station and depth, stations rising, mm
    StopReason reason = StopReason::done; ///< without depths unless done
};

/// Forms the job's blank. Replaceable, so that the search is tested without a solver.
using Former = std::function<Result<FormedPart>(const job::Job&)>;

/// Wanted and reached at a station, mm.
struct DepthAt {
    double station = 0;
    double wanted = 0;
    double reached = 0;

    [[nodiscard]] double miss() const { return reached - wanted; }
};

/// The best outline that was formed.
struct BlankOutline {
    outline::Profile net; ///< flat width that forms to the wanted depth; one point: alike all along
    std::vector<DepthAt> depths; ///< of the part formed from it, trimmed to the net line
    double largest_miss = 0; ///< mm, without sign
    double miss_station = 0; ///< where
    int n_rounds = 0; ///< parts formed
    StopReason reason = StopReason::done; ///< of the last part; unless done there may be no depths

    /// Units: mm. Source: none needed. Fails: never.
    [[nodiscard]] bool meets(double within) const {
        return !depths.empty() && largest_miss <= within;
    }
};

/// The job with a net outline, its trim allowance added to it. Units: mm. Source: none needed.
/// Fails: never.
[[nodiscard]] job::Job with_net_widths(const job::Job& job, const outline::Profile& net);

/// The job as it is formed in the search: with a trim at its end where an allowance is left on and
/// no step takes it off, and without holes in the flange, notches and tabs, which a width that
/// varies does not go with. Units, source: none needed. Fails: never.
[[nodiscard]] job::Job job_to_form(const job::Job& job);

/// Whether the search leaves something of the job's blank out. Units, source: none needed. Fails:
/// never.
[[nodiscard]] bool leaves_openings_out(const job::Job& job);

/// Corrects the flat width by the miss of the depth at stations about a quarter of a width apart
/// until the largest miss is small enough, or no smaller than before, and gives the best outline
/// formed. `wanted` without points: the job's depth all along. Units: mm. Source: derived here
/// (docs/templates.md, "Search"). Fails: as the former; a job with a return bend is a caller's bug.
[[nodiscard]] Result<BlankOutline> find_outline(
    const job::Job& job,
    const outline::Profile& wanted,
    const OutlineSearch& search,
    const Former& former
);

/// The former that solves the job, all its steps. Units: mm. Source: docs/theory.md. Fails: when
/// the mesh library refuses.
[[nodiscard]] Former solved_former(int n_threads, const Monitor& monitor);

} // namespace flangewright::process
