#include "solver/findings/depth_left.hpp"

#include "solver/findings/flange_development.hpp"
#include "solver/findings/interior_neck.hpp"
#include "solver/findings/lip_development.hpp"
#include "solver/findings/verdict.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

namespace flangewright::findings {

namespace {

constexpr double deepest_looked_at = 300; // mm, as in a case

constexpr std::array<std::string_view, 3> places_of_depth{
    edge_place, interior_place, thickness_place};

/// Room left in the limit that has least: what it may be over what it is.
std::optional<double> least_room(const job::Job& job, std::span<const LimitUse> limits) {
    std::optional<double> room;
    for (const LimitUse& use : limits) {
        const bool is_of_depth =
            std::ranges::find(places_of_depth, use.place) != places_of_depth.end();
        if (!is_of_depth || !use.is_needed) {
            continue;
        }
        if (!use.share) {
            return std::nullopt;
        }
        if (*use.share > 0) {
            const double here =
                share_that_holds(use.place, use.grade, job.close_share) / *use.share;
            room = std::min(room.value_or(here), here);
        }
    }
    return room;
}

/// The job with its net flange so deep.
job::Job with_depth(const job::Job& job, double depth) {
    job::Job there = job;
    there.blank.flange_depth = depth;
    return there;
}

double edge_stretch(const job::Job& there) {
    return there.return_bend ? lip_edge_stretch(there)
                             : edge_radii(there, developed_flange_width(there)).stretch;
}

double depth_of(const job::Job& job) {
    return job.blank.flange_depth > 0
        ? job.blank.flange_depth
        : formed_flange_depth(job, job.blank.flange_width - job.blank.trim_allowance);
}

} // namespace

std::optional<double> depth_left(const job::Job& job, std::span<const LimitUse> limits) {
    const std::optional<double> room = least_room(job, limits);
    const double own = depth_of(job);
    const double stretch = edge_stretch(with_depth(job, own));
    if (!room || !(stretch > 0) || !std::isfinite(stretch)) {
        return std::nullopt;
    }
    double holds = mould_setback(job);
    double splits = deepest_looked_at;
    for (int halving = 0; halving < 60; ++halving) {
        const double middle = 0.5 * (holds + splits);
        const bool is_in_room = edge_stretch(with_depth(job, middle)) <= *room * stretch;
        (is_in_room ? holds : splits) = middle;
    }
    return holds - own;
}

} // namespace flangewright::findings
