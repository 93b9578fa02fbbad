#include "solver/material/yield_figures.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::material {
namespace {

using std::numbers::pi;

constexpr double rounding = 1e-12;

class RValues : public testing::TestWithParam<std::array<double, 3>> {};

TEST_P(RValues, ComeBackFromTensionAtTheirAngles) {
    const auto [r0, r45, r90] = GetParam();
    const auto law = support::hill48(r0, r45, r90);
    EXPECT_NEAR(tension_at(*law, 0).r_value, r0, rounding * r0);
    EXPECT_NEAR(tension_at(*law, pi / 4).r_value, r45, rounding * r45);
    EXPECT_NEAR(tension_at(*law, pi / 2).r_value, r90, rounding * r90);
    EXPECT_NEAR(tension_at(*law, 0).stress, 1, rounding); // the hardening curve's
}

// Source: hill-1948, closed forms of reference benchmarks 08.
TEST_P(RValues, GiveTheStressesOfTheClosedForms) {
    const auto [r0, r45, r90] = GetParam();
    const auto law = support::hill48(r0, r45, r90);
    const double across = std::sqrt(r90 * (1 + r0) / (r0 * (1 + r90)));
    EXPECT_NEAR(tension_at(*law, pi / 2).stress, across, rounding * across);
    EXPECT_NEAR(biaxial_tension(*law).strain_ratio, r0 / r90, rounding * r0 / r90);
    const double F = r0 / (r90 * (1 + r0));
    const double N = (r0 + r90) * (1 + 2 * r45) / (2 * r90 * (1 + r0));
    EXPECT_NEAR(biaxial_tension(*law).stress, 1 / std::sqrt(F + 1 / (1 + r0)), rounding);
    EXPECT_NEAR(law->stress({0, 0, 1}), std::sqrt(2 * N), rounding * N);
}

INSTANTIATE_TEST_SUITE_P(
    Of,
    RValues,
    testing::Values(
        std::array{1.0, 1.0, 1.0},
        std::array{0.2115, 1.5769, 0.6923},
        std::array{0.65, 0.83, 0.60},
        std::array{1.9, 1.4, 2.2}
    )
);

// Plane strain of a sheet with one r in all directions: stress (1 + r)/sqrt(1 + 2 r) at the ratio
// r/(1 + r). Source: hill-1948; as quoted by marciniak-duncan-hu-2002.
TEST(Hill48, HasThePlaneStrainOfNormalAnisotropy) {
    for (const double r : {0.4, 1.0, 2.0}) {
        const auto law = support::hill48(r, r, r);
        const YieldPoint point = law->at({1, r / (1 + r), 0});
        EXPECT_NEAR(point.gradient[1], 0, rounding) << r;
        const double expected = (1 + r) / std::sqrt(1 + 2 * r);
        EXPECT_NEAR(1 / point.stress, expected, rounding * expected) << r;
    }
}

TEST(Hill48, WithRValuesOfOneIsVonMises) {
    const auto hill = support::hill48(1, 1, 1);
    const auto mises = support::yield_law("von_mises", {});
    for (const RollingStress& s :
         {RollingStress(3, 1, 2), RollingStress(-1, 2, 0.5), RollingStress(1, 1, 0)}) {
        EXPECT_NEAR(hill->stress(s), mises->stress(s), rounding);
        EXPECT_LT((hill->at(s).gradient - mises->at(s).gradient).norm(), rounding);
        EXPECT_LT((hill->at(s).curvature - mises->at(s).curvature).norm(), rounding);
    }
}

} // namespace
} // namespace flangewright::material
