#include "mesh/outline/clearance.hpp"

#include <gtest/gtest.h>

#include <numbers>

namespace flangewright::outline {
namespace {

constexpr double pi = std::numbers::pi;

// Two straight legs, so far apart, joined by a half circle round which the flange lies inside.
BendLine hairpin(double apart) {
    return BendLine::chain({{100, 0}, {pi * 0.5 * apart, 2 / apart}, {100, 0}});
}

TEST(Clearance, OfAnSCurveIsFreeOfMeetings) {
    const BendLine line = BendLine::chain({{70, 1.0 / 80}, {30, 0}, {90, -1.0 / 60}});
    EXPECT_FALSE(find_self_crossing(line).has_value());
    EXPECT_FALSE(find_overlap(line, 50, 40).has_value());
}

// On a slant, rounding puts points of a straight to either side of it.
TEST(Clearance, ASlantedStraightDoesNotCrossItself) {
    for (const double turn : {0.1, 0.37, 0.8, 1.1}) {
        const BendLine line = BendLine::chain({{50 * turn, 1.0 / 50}, {300, 0}, {40, -1.0 / 90}});
        EXPECT_FALSE(find_self_crossing(line).has_value()) << turn;
    }
}

TEST(Clearance, FlangesOfAHairpinMeetWhenTheyAreWiderThanHalfTheGap) {
    EXPECT_FALSE(find_overlap(hairpin(50), 200, 24).has_value());
    const std::optional<Meeting> found = find_overlap(hairpin(50), 200, 26);
    ASSERT_TRUE(found.has_value());
    EXPECT_GT(found->distance, 0);
    EXPECT_NEAR(std::abs(found->distance), 26, 1e-9);
}

TEST(Clearance, WebsMeetOnTheOtherSide) {
    const BendLine line = BendLine::chain({{100, 0}, {pi * 25, -1.0 / 25}, {100, 0}});
    EXPECT_FALSE(find_overlap(line, 24, 200).has_value());
    const std::optional<Meeting> found = find_overlap(line, 26, 20);
    ASSERT_TRUE(found.has_value());
    EXPECT_LT(found->distance, 0);
}

TEST(Clearance, ALoopCrossesItself) {
    const BendLine line = BendLine::chain({{100, 0}, {30 * 1.6 * pi, 1.0 / 30}, {100, 0}});
    const std::optional<Meeting> found = find_self_crossing(line);
    ASSERT_TRUE(found.has_value());
    EXPECT_EQ(found->piece, 0U);
    EXPECT_EQ(found->other, 2U);
    EXPECT_FALSE(find_self_crossing(hairpin(50)).has_value());
}

} // namespace
} // namespace flangewright::outline
