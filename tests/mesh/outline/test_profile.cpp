// A quantity over the station: straight between its points, level beyond, corners rounded on
// demand.
#include "mesh/outline/profile.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::outline {
namespace {

const Profile bevel({{10, 4}, {30, 8}, {36, 5}});

TEST(Profile, RunsStraightBetweenItsPointsAndLevelBeyond) {
    EXPECT_EQ(bevel.at(10), 4);
    EXPECT_EQ(bevel.at(30), 8);
    EXPECT_DOUBLE_EQ(bevel.at(15), 5);
    EXPECT_DOUBLE_EQ(bevel.at(34), 6);
    EXPECT_EQ(bevel.at(-3), 4);
    EXPECT_EQ(bevel.at(99), 5);
    EXPECT_EQ(Profile({{7, 2.5}}).at(0), 2.5);
    EXPECT_EQ(Profile({{7, 2.5}}).rounded_at(7).value, 2.5);
}

TEST(Profile, KnowsItsLargestSmallestAndSteepest) {
    EXPECT_EQ(bevel.most(), 8);
    EXPECT_EQ(bevel.least(), 4);
    EXPECT_DOUBLE_EQ(bevel.steepest(), 0.5);
    EXPECT_EQ(bevel.raised_by(-1).at(30), 7);
    EXPECT_TRUE(Profile().is_empty());
    EXPECT_TRUE(Profile().raised_by(3).is_empty());
}

TEST(Profile, RoundedHasTheSlopesItSays) {
    constexpr double h = 1e-5;
    constexpr double rounding = 1e-8;
    double largest_bend = 0;
    for (double at = 2.013; at < 45; at += 0.37) {
        const ProfileReading here = bevel.rounded_at(at);
        const ProfileReading past = bevel.rounded_at(at + h);
        const ProfileReading before = bevel.rounded_at(at - h);
        EXPECT_NEAR(here.slope, (past.value - before.value) / (2 * h), rounding) << at;
        EXPECT_NEAR(here.bend, (past.slope - before.slope) / (2 * h), rounding) << at;
        largest_bend = std::max(largest_bend, std::abs(here.bend));
    }
    EXPECT_GT(largest_bend, 0.1);
}

TEST(Profile, RoundingMissesACornerByHalfTheChangeOfSlopeAtMostAndNothingElse) {
    constexpr double change = 0.7; // of slope, at 30
    EXPECT_NEAR(bevel.rounded_at(30).value, 8 - change * 1.5 / 4, 1e-12); // 1.5 mm to either side
    EXPECT_NEAR(bevel.rounded_at(10).value, 4 + 0.2 * 2 / 4, 1e-12);
    for (const double away : {0.0, 7.9, 12.1, 20.0, 28.4, 31.6, 34.4, 37.6}) {
        EXPECT_DOUBLE_EQ(bevel.rounded_at(away).value, bevel.at(away)) << away;
    }
}

// Seams of the rounding have neither step nor kink.
TEST(Profile, RoundedIsSmoothWhereTheRoundingBegins) {
    for (const double seam : {8.0, 12.0, 28.5, 30.0, 31.5, 34.5, 37.5}) {
        const ProfileReading before = bevel.rounded_at(seam - 1e-9);
        const ProfileReading past = bevel.rounded_at(seam + 1e-9);
        EXPECT_NEAR(before.value, past.value, 1e-8) << seam;
        EXPECT_NEAR(before.slope, past.slope, 1e-8) << seam;
    }
}

} // namespace
} // namespace flangewright::outline
