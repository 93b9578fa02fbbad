#include "solver/findings/hand_calculation.hpp"
#include "tests/support/flange_job.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::findings {
namespace {

using support::degree;

constexpr double rounding = 1e-9;

// Source: trial of case S1 by layer-wise flow theory: 57.72 N mm/mm, 2.777 deg (own work); the rest
// is geometry.
TEST(HandCalculation, WorksOutTheStraightFlange) {
    const HandCalculation hand = calculate_by_hand(support::straight_job());
    EXPECT_NEAR(hand.springback_moment, 57.72, 0.005 * 57.72);
    EXPECT_NEAR(hand.springback / degree, 2.777, 0.005 * 2.777);
    EXPECT_NEAR(hand.bend_allowance, 90 * degree * 3.5, rounding);
    EXPECT_NEAR(hand.mould_setback, 4, rounding);
    EXPECT_NEAR(hand.bend_strain, std::log(4 / 3.5), rounding);
    EXPECT_EQ(hand.edge_strain, 0);
    EXPECT_EQ(hand.edge_thickness_ratio, 1);
    EXPECT_EQ(hand.flat_width, 20);
}

// Source: solid-section-reference, A2, edge_hoop_simple; thickness by stretch-flange-closed-forms,
// (ri/R)^(1/2).
TEST(HandCalculation, WorksOutTheStretchFlange) {
    const HandCalculation hand = calculate_by_hand(support::ring_job());
    EXPECT_NEAR(hand.edge_strain, 0.154151, 1e-6);
    EXPECT_NEAR(hand.edge_stretch, 59.5 / 51 - 1, rounding);
    EXPECT_NEAR(hand.edge_thickness_ratio, std::sqrt(51 / 59.5), rounding);
}

TEST(HandCalculation, DevelopsTheBlankFromTheDepth) {
    job::Job job = support::straight_job();
    job.blank.flange_width = 0;
    job.blank.flange_depth = 18;
    EXPECT_NEAR(calculate_by_hand(job).flat_width, 18 - 4 + 90 * degree * 3.5, rounding);
}

// A strip bent to the block's angle and let go must come out at the wanted angle.
TEST(HandCalculation, OverbendsByTheSpringbackOfTheLargerAngle) {
    job::Job job = support::straight_job();
    const double block_angle = calculate_by_hand(job).block_angle_for_wanted;
    EXPECT_GT(block_angle, job.block.wall_angle);
    job.block.wall_angle = block_angle;
    job.drive.angle = block_angle;
    EXPECT_NEAR(block_angle - calculate_by_hand(job).springback, 90 * degree, rounding);
}

TEST(HandCalculation, GivesNoNumberThatIsNotANumber) {
    job::Job job = support::ring_job();
    job.blank.flange_width = 63;
    const HandCalculation hand = calculate_by_hand(job);
    EXPECT_TRUE(std::isinf(hand.edge_stretch));
    EXPECT_EQ(hand.edge_thickness_ratio, 0);
    job.block.nose_radius = 5000;
    EXPECT_TRUE(std::isinf(calculate_by_hand(job).block_angle_for_wanted));
}

// In tension along itself an edge gives 1 / (1 + r) of its strain out of the thickness, whatever
// the yield law: the definition of r.
TEST(HandCalculation, ThinsTheEdgeOfARolledSheetByItsRValue) {
    job::Job job = support::ring_job();
    EXPECT_FALSE(calculate_by_hand(job).edge_r_value);
    for (const double r : {0.5, 1.0, 2.0}) {
        job.sheet.material.yield = support::hill48(r, r, r);
        const HandCalculation hand = calculate_by_hand(job);
        EXPECT_NEAR(hand.edge_r_value.value(), r, rounding);
        EXPECT_NEAR(std::log(hand.edge_thickness_ratio), -hand.edge_strain / (1 + r), rounding);
    }
}

TEST(HandCalculation, TakesTheGrainAlongAStraightLine) {
    job::Job job = support::straight_job();
    job.sheet.material.yield = support::hill48(0.6, 0.9, 1.4);
    EXPECT_NEAR(calculate_by_hand(job).edge_r_value.value(), 0.6, rounding);
    const double along = calculate_by_hand(job).springback;
    job.sheet.rolling_direction = 90 * degree;
    EXPECT_NEAR(calculate_by_hand(job).edge_r_value.value(), 1.4, rounding);
    EXPECT_GT(std::abs(calculate_by_hand(job).springback / along - 1), 0.02);
    job.sheet.rolling_direction = 45 * degree;
    EXPECT_NEAR(calculate_by_hand(job).edge_r_value.value(), 0.9, rounding);
}

// The line turns over the grain: the place where the edge thins most counts.
TEST(HandCalculation, TakesTheThinnestPlaceAlongAnArc) {
    job::Job job = support::ring_job();
    job.blank.line = outline::BendLine::arc(60, 100 * degree, outline::Curve::concave);
    job.sheet.material.yield = support::hill48(0.9, 0.4, 0.9);
    EXPECT_NEAR(calculate_by_hand(job).edge_r_value.value(), 0.4, 0.01);
    job.sheet.material.yield = support::hill48(0.9, 1.4, 0.9);
    EXPECT_NEAR(calculate_by_hand(job).edge_r_value.value(), 0.9, 0.01);
}

} // namespace
} // namespace flangewright::findings
