// Pressure over the gap: zero outside, soft start, then a constant slope.
#include "solver/tooling/contact_law.hpp"

#include <gtest/gtest.h>

namespace flangewright::tooling {
namespace {

constexpr ContactLaw law{.stiffness = 70000, .ramp = 0.005};

TEST(ContactLaw, SlopeIsTheDerivativeOfPressure) {
    constexpr double h = 1e-8;
    for (const double gap : {0.01, -1e-5, -0.001, -0.0049, -0.0051, -0.02}) {
        const double slope = (law.at(gap + h).pressure - law.at(gap - h).pressure) / (2 * h);
        EXPECT_NEAR(law.at(gap).slope, slope, 1e-6 * law.stiffness);
    }
}

TEST(ContactLaw, PushesOnlyWhenToolAndSheetOverlap) {
    EXPECT_EQ(law.at(0.001).pressure, 0);
    EXPECT_EQ(law.at(0).pressure, 0);
    EXPECT_GT(law.at(-1e-4).pressure, 0);
    EXPECT_LT(law.at(-1e-4).slope, 0);
}

TEST(ContactLaw, HasNeitherStepNorKinkAtTheEndOfItsRamp) {
    const ContactPressure before = law.at(-law.ramp * (1 - 1e-9));
    const ContactPressure after = law.at(-law.ramp * (1 + 1e-9));
    EXPECT_NEAR(before.pressure, after.pressure, 1e-6);
    EXPECT_NEAR(before.slope, after.slope, 1e-3);
    EXPECT_NEAR(after.pressure, 0.5 * law.stiffness * law.ramp, 1e-6);
}

} // namespace
} // namespace flangewright::tooling
