#include "solver/findings/hand_calculation.hpp"

#include "solver/findings/strip_bending.hpp"

#include <cmath>
#include <limits>

namespace flangewright::findings {

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
    return hand;
}

} // namespace flangewright::findings
