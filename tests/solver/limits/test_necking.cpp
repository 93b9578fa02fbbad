#include "solver/limits/necking.hpp"
#include "tests/support/flow_law.hpp"

#include <gtest/gtest.h>

namespace flangewright::limits {
namespace {

constexpr double n = 0.2;
constexpr double e0 = 0.01;
constexpr double rounding = 1e-6; // of the search for the root

// Source: considere-1885.
TEST(Necking, InTensionBeginsAtTheExponentLessThePrestrain) {
    const auto law = support::swift(500, e0, n);
    EXPECT_NEAR(neck_strain(*law, 1).value(), n - e0, rounding);
    EXPECT_NEAR(swift_factor(-0.5), 1, rounding);
}

TEST(Necking, OfAnyCurveIsTheClosedFormForAPowerLaw) {
    const auto law = support::swift(500, e0, n);
    for (const double ratio : {-0.5, -0.3, -0.1, 0.0}) {
        const double equivalent = equivalent_per_major(ratio);
        EXPECT_NEAR(
            neck_strain(*law, hill_factor(ratio)).value() / equivalent,
            hill_major_strain(n, e0, ratio),
            rounding
        ) << ratio;
        EXPECT_NEAR(
            neck_strain(*law, swift_factor(ratio)).value() / equivalent,
            swift_major_strain(n, e0, ratio),
            rounding
        ) << ratio;
    }
}

// Slope = stress of Y + H p where p = 1 - Y / H.
TEST(Necking, OfAStraightCurveIsWhereItsSubtangentIsOne) {
    const support::LinearFlow law(100, 500);
    EXPECT_NEAR(neck_strain(law, 1).value(), 0.8, rounding);
    EXPECT_FALSE(neck_strain(law, 1, 0.7));
}

TEST(Necking, OfASheetThatDoesNotHardenIsThereAtOnce) {
    EXPECT_EQ(neck_strain(support::PerfectFlow(100), 1).value(), 0);
}

TEST(Necking, IsLocalNoSoonerThanDiffuse) {
    for (const double ratio : {-0.5, -0.4, -0.2, 0.0}) {
        EXPECT_GE(hill_factor(ratio), swift_factor(ratio) - rounding) << ratio;
    }
    EXPECT_GT(hill_factor(-0.5), 1.5 * swift_factor(-0.5));
}

} // namespace
} // namespace flangewright::limits
