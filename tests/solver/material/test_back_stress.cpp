// What back stresses add to a tensile curve, against their closed form.
#include "solver/material/back_stress.hpp"
#include "tests/support/flow_law.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace flangewright::material {
namespace {

const std::vector<BackStress> three{{50000, 1200}, {6000, 90}, {400, 0}};

// lemaitre-chaboche-1990, section 5.4 (from memory): X = C/gamma (1 - exp(-gamma p)) in tension;
// without recall X = C p (Prager).
TEST(BackStress, ShiftsATensileCurveByItsClosedForm) {
    constexpr double rounding = 1e-12;
    for (const double p : {0.0, 1e-4, 0.01, 0.3}) {
        const double expected = 50000.0 / 1200 * (1 - std::exp(-1200 * p))
            + 6000.0 / 90 * (1 - std::exp(-90 * p)) + 400 * p;
        EXPECT_NEAR(steady_back_stress(three, p).stress, expected, rounding * 200) << p;
    }
}

TEST(BackStress, StartsWithTheSumOfItsStiffnesses) {
    EXPECT_DOUBLE_EQ(steady_back_stress(three, 0).slope, 56400);
    EXPECT_EQ(steady_back_stress(three, 0).stress, 0);
}

TEST(BackStress, SlopeIsTheDerivativeOfStress) {
    constexpr double h = 1e-6;
    constexpr double truncation = 1e-5; // (gamma h)^2/6 of a slope
    for (const double p : {1e-3, 0.02, 0.2}) {
        const double slope =
            (steady_back_stress(three, p + h).stress - steady_back_stress(three, p - h).stress)
            / (2 * h);
        EXPECT_NEAR(steady_back_stress(three, p).slope, slope, truncation * slope) << p;
    }
}

TEST(BackStress, SaturatesAtStiffnessOverRecall) {
    const std::vector<BackStress> one{{9000, 150}};
    EXPECT_NEAR(steady_back_stress(one, 1).stress, 60, 1e-9);
}

TEST(SteadyFlow, IsTheIsotropicLawItselfWithoutBackStresses) {
    const auto law = support::swift(330, 0.0032, 0.22);
    EXPECT_EQ(steady_flow(law, {}), law);
}

TEST(SteadyFlow, AddsSizeAndShift) {
    const auto law = support::swift(330, 0.0032, 0.22);
    const auto flow = steady_flow(law, three);
    const FlowStress size = law->at(0.05);
    const FlowStress shift = steady_back_stress(three, 0.05);
    EXPECT_DOUBLE_EQ(flow->at(0.05).stress, size.stress + shift.stress);
    EXPECT_DOUBLE_EQ(flow->at(0.05).slope, size.slope + shift.slope);
}

} // namespace
} // namespace flangewright::material
