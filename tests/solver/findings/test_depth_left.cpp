#include "solver/findings/depth_left.hpp"
#include "solver/findings/flange_development.hpp"
#include "tests/support/flange_job.hpp"

#include <gtest/gtest.h>

namespace flangewright::findings {
namespace {

constexpr double fine = 1e-6; // mm

job::Job ring() {
    job::Job job = support::ring_job();
    job.blank.flange_depth = 12;
    job.blank.flange_width = developed_flange_width(job);
    return job;
}

LimitUse used(double share, const std::string& place = "free edge") {
    LimitUse use;
    use.place = place;
    use.share = share;
    use.grade = material::DataGrade::coupon;
    return use;
}

double stretch_at(const job::Job& job, double depth) {
    job::Job there = job;
    there.blank.flange_depth = depth;
    return edge_radii(there, developed_flange_width(there)).stretch;
}

TEST(DepthLeft, GrowsTheShareWithTheStretchByHand) {
    const job::Job job = ring();
    const auto left = depth_left(job, std::vector{used(0.5)});
    ASSERT_TRUE(left);
    EXPECT_GT(*left, 0);
    // At that depth the edge is stretched by 0.8 / 0.5 of what it is.
    EXPECT_NEAR(stretch_at(job, 12 + *left), 1.6 * stretch_at(job, 12), 1e-6);
}

TEST(DepthLeft, IsNoneAtTheBorderAndNegativePastIt) {
    EXPECT_NEAR(*depth_left(ring(), std::vector{used(0.8)}), 0, fine);
    EXPECT_LT(*depth_left(ring(), std::vector{used(0.95)}), -0.5);
}

TEST(DepthLeft, IsThatOfTheLimitWithLeastRoom) {
    const double edge = *depth_left(ring(), std::vector{used(0.4)});
    const double both =
        *depth_left(ring(), std::vector{used(0.4), used(0.6, "sheet away from edges and bends")});
    EXPECT_LT(both, edge);
    // A bend's outer fibre does not mind how deep the flange is.
    EXPECT_EQ(*depth_left(ring(), std::vector{used(0.4), used(0.7, "outer fibre")}), edge);
}

TEST(DepthLeft, KeepsHalfOfALimitOnDoubtfulData) {
    LimitUse guess = used(0.5);
    guess.grade = material::DataGrade::assumed;
    EXPECT_NEAR(*depth_left(ring(), std::vector{guess}), 0, fine);
}

TEST(DepthLeft, IsNotToldWhereTheEdgeIsNotStretchedOrNothingIsKnown) {
    job::Job straight = ring();
    straight.blank.line = outline::BendLine::straight(50);
    EXPECT_FALSE(depth_left(straight, std::vector{used(0.5)}));
    LimitUse unknown = used(0.5);
    unknown.share.reset();
    EXPECT_FALSE(depth_left(ring(), std::vector{unknown}));
    EXPECT_FALSE(depth_left(ring(), {}));
}

TEST(DepthLeft, BeginsFromTheFlatWidthWhereNoDepthIsStated) {
    job::Job job = ring();
    job.blank.flange_depth = 0;
    EXPECT_NEAR(
        *depth_left(job, std::vector{used(0.5)}), *depth_left(ring(), std::vector{used(0.5)}), 1e-4
    );
}

} // namespace
} // namespace flangewright::findings
