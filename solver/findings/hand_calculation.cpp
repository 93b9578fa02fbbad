#include "solver/findings/hand_calculation.hpp"

#include "solver/findings/grain_angle.hpp"
#include "solver/findings/lip_development.hpp"
#include "solver/findings/strip_bending.hpp"
#include "solver/material/yield_figures.hpp"

#include <cmath>
#include <limits>
#include <numbers>

namespace flangewright::findings {

namespace {

/// How a rolled sheet lies where its edge changes its thickness most.
struct Grain {
    double angle = 0; ///< from the bend line
    std::optional<double> r_value; ///< in tension along the edge; none: alike in all directions
};

/// Of the pieces of the line that curve as the tightest does; a degree at a time.
Grain governing_grain(const job::Job& job) {
    Grain governing;
    if (!job.sheet.material.yield) {
        return governing;
    }
    constexpr double a_degree = std::numbers::pi / 180;
    const double tightest = job.blank.line.tightest_curvature();
    double begin = 0;
    for (const outline::Piece& piece : job.blank.line.pieces()) {
        const double sweep = std::abs(piece.curvature) * piece.length;
        const int n = 2 + static_cast<int>(sweep / a_degree);
        for (int i = 0; i <= n && std::abs(piece.curvature - tightest) < 1e-9; ++i) {
            const double angle = grain_angle(job, begin + piece.length * i / n);
            const double r = material::tension_at(*job.sheet.material.yield, angle).r_value;
            if (r < governing.r_value.value_or(std::numeric_limits<double>::infinity())) {
                governing = {angle, r};
            }
        }
        begin += piece.length;
    }
    return governing;
}

LipByHand lip_by_hand(const job::Job& job, double grain) {
    const double t = job.sheet.thickness;
    const double mid_radius = job.return_bend->nose_radius + 0.5 * t;
    const BentStrip strip = bend_strip(job.sheet.material, t, mid_radius, grain);
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
    const Grain grain = governing_grain(job);
    const BentStrip strip =
        bend_strip(job.sheet.material, job.sheet.thickness, mid_radius, grain.angle);

    HandCalculation hand;
    hand.flat_width =
        job.blank.flange_width > 0 ? job.blank.flange_width : developed_flange_width(job);
    hand.edge_stretch = edge_radii(job, hand.flat_width).stretch;
    hand.edge_strain = std::log1p(hand.edge_stretch);
    // A free edge in uniaxial tension: 1 / (1 + r) of the strain comes out of the thickness.
    hand.edge_r_value = grain.r_value;
    hand.edge_thickness_ratio = std::exp(-hand.edge_strain / (1 + grain.r_value.value_or(1)));
    hand.bend_strain = strip.outer_strain;
    hand.bend_allowance = bend_allowance(job);
    hand.mould_setback = mould_setback(job);
    hand.springback_moment = strip.moment;
    hand.springback = turned_angle(job) * strip.springback_per_angle;
    const double kept = 1 - strip.springback_per_angle;
    hand.block_angle_for_wanted =
        kept > 1e-6 ? job.block.wall_angle / kept : std::numeric_limits<double>::infinity();
    if (job.return_bend) {
        hand.lip = lip_by_hand(job, grain.angle);
    }
    return hand;
}

} // namespace flangewright::findings
