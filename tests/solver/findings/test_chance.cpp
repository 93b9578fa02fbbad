// Chance of splitting: closed forms of the normal distribution, and the draws beside them.
#include "solver/findings/chance.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::findings {
namespace {

// Of 100 000 draws a chance p scatters by sqrt(p (1 - p) / n) < 0.0016; three times that.
constexpr double noise_of_draws = 0.005;

// Table of the standard normal distribution: Phi(1) = 0.841345, Phi(1.96) = 0.975002,
// Phi(3) = 0.998650 (any textbook's table; from memory).
TEST(Chance, NormalTailsAreThoseOfTheTable) {
    EXPECT_NEAR(normal_beyond(1, 0.5, 0.5), 1 - 0.841345, 1e-6);
    EXPECT_NEAR(normal_beyond(1, 1 - 1.96 * 0.1, 0.1), 1 - 0.975002, 1e-6);
    EXPECT_NEAR(normal_beyond(1, 1.3, 0.1), 0.998650, 1e-6);
    EXPECT_EQ(normal_beyond(1, 1.01, 0), 1);
    EXPECT_EQ(normal_beyond(1, 1, 0), 0);
}

TEST(Chance, OfOneLimitIsExactWhenTheShareIsStraightInWhatVaries) {
    // Bands 30 % and 40 % are deviations of 15 % and 20 %: together 25 % of 0.8 = 0.2, and the
    // limit is one deviation away.
    const std::vector<LimitMoves> limits{{"free edge", 0.8, {0.3, -0.4}, 0}};
    const Chance chance = chance_of_splitting(limits);
    ASSERT_TRUE(chance.first_order.has_value());
    EXPECT_NEAR(chance.deviation, 0.2, 1e-12);
    EXPECT_NEAR(*chance.first_order, 1 - 0.841345, 1e-6);
    EXPECT_NEAR(chance.by_draws, 1 - 0.841345, noise_of_draws);
    EXPECT_EQ(chance.place, "free edge");
    EXPECT_EQ(chance.why_not, "");
}

TEST(Chance, DrawsCountThatALimitDividesTheShare) {
    // Only what is allowed varies, by a deviation of 0.1: it splits where 0.8 > 1 + 0.1 z, which is
    // two deviations off; straight about 0.8 the share's deviation is 0.08, two and a half.
    const std::vector<LimitMoves> limits{{"free edge", 0.8, {}, 0.2}};
    const Chance chance = chance_of_splitting(limits);
    EXPECT_NEAR(*chance.first_order, 0.5 * std::erfc(2.5 / std::sqrt(2.0)), 1e-12);
    EXPECT_NEAR(chance.by_draws, 0.5 * std::erfc(2 / std::sqrt(2.0)), noise_of_draws);
}

TEST(Chance, TellsTheLikeliestPlaceAndDrawsOfAny) {
    // Half and half, moved by the same thing the opposite way: one of the two always splits.
    const std::vector<LimitMoves> limits{
        {"free edge", 1, {0.2}, 0}, {"outer fibre of the bend", 1, {-0.2}, 0}};
    const Chance chance = chance_of_splitting(limits);
    EXPECT_NEAR(*chance.first_order, 0.5, 1e-12);
    EXPECT_NEAR(chance.by_draws, 1, 1e-4);
    const std::vector<LimitMoves> apart{
        {"free edge", 0.5, {0.2}, 0}, {"outer fibre of the bend", 0.95, {0.1}, 0}};
    EXPECT_EQ(chance_of_splitting(apart).place, "outer fibre of the bend");
    // Without any scatter the one that uses most is spoken of.
    const std::vector<LimitMoves> still{{"free edge", 0.9}, {"outer fibre of the bend", 0.5}};
    EXPECT_EQ(chance_of_splitting(still).place, "free edge");
    EXPECT_EQ(*chance_of_splitting(still).first_order, 0);
    EXPECT_EQ(chance_of_splitting(still).by_draws, 0);
}

TEST(Chance, IsTheSameEachTimeItIsAsked) {
    const std::vector<LimitMoves> limits{{"free edge", 0.9, {0.1, 0.05}, 0.2}};
    EXPECT_EQ(chance_of_splitting(limits).by_draws, chance_of_splitting(limits).by_draws);
}

TEST(Chance, IsNotGivenWithoutALimit) {
    const Chance chance = chance_of_splitting({});
    EXPECT_FALSE(chance.first_order.has_value());
    EXPECT_NE(chance.why_not, "");
}

} // namespace
} // namespace flangewright::findings
