#include "solver/findings/hand_calculation.hpp"

#include "solver/findings/lip_development.hpp"
#include "solver/findings/strip_bending.hpp"

#include <cmath>
#include <limits>

namespace flangewright::findings {

namespace {

LipByHand lip_by_hand(const job::Job& job) {
    const double t = job.sheet.thickness;
    const double mid_radius = job.return_bend->nose_radius + 0.5 * t;
    const BentStrip strip = bend_strip(job.sheet.material, t, mid_radius);
    const LipDevelopment flat = develop_lip(job);
    LipByHand lip;
    lip.edge_stretch = lip_edge_stretch(job);
    lip.edge_strain = std::log1p(lip.edge_stretch);
    lip.bend_strain = strip.outer_strain;
    lip.bend_allowance = lip_bend_allowance(job);
    lip.mould_setback = lip_setback(job);
    lip.bend_begin = flat.bend_begin;
    lip.flat_width = flat.width;
    lip.springback = job.return_bend->angle * strip.springback_per_angle;
    return lip;
}

} // namespace

HandCalculation calculate_by_hand(const job::Job& job) {
    const double mid_radius = job.block.nose_radius + 0.5 * job.sheet.thickness;
    const BentStrip strip = bend_strip(job.sheet.material, job.sheet.thickness, mid_radius);

    HandCalculation hand;
    hand.flat_width =
        job.blank.flange_width > 0 ? job.blank.flange_width : developed_flange_width(job);
    hand.edge_stretch = edge_radii(job, hand.flat_width).stretch;
    hand.edge_strain = std::log1p(hand.edge_stretch);
    // A free edge in uniaxial tension: half of the strain comes out of the thickness.
    hand.edge_thickness_ratio = std::exp(-0.5 * hand.edge_strain);
    hand.bend_strain = strip.outer_strain;
    hand.bend_allowance = bend_allowance(job);
    hand.mould_setback = mould_setback(job);
    hand.springback_moment = strip.moment;
    hand.springback = turned_angle(job) * strip.springback_per_angle;
    const double kept = 1 - strip.springback_per_angle;
    hand.block_angle_for_wanted =
        kept > 1e-6 ? job.block.wall_angle / kept : std::numeric_limits<double>::infinity();
    if (job.return_bend) {
        hand.lip = lip_by_hand(job);
    }
    return hand;
}

} // namespace flangewright::findings
