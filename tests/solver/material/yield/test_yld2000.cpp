#include "solver/material/yield_figures.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

namespace flangewright::material {
namespace {

constexpr double rounding = 1e-12;
const std::vector<double> ones(8, 1.0);
const std::vector<double> uneven{0.4865, 1.3783, 0.7536, 1.0246, 1.0363, 0.9036, 1.2321, 1.4858};

const YieldEntry& entry() {
    for (const YieldEntry& candidate : yield_laws()) {
        if (candidate.name == "yld2000") {
            return candidate;
        }
    }
    throw std::logic_error("law vanished");
}

TEST(Yld2000, WithAllOnesAndASquareIsVonMises) {
    const auto law = support::yld2000(2, ones);
    const auto mises = support::yield_law("von_mises", {});
    for (const RollingStress& s :
         {RollingStress(3, 1, 2), RollingStress(-1, 2, 0.5), RollingStress(1, 1, 0)}) {
        EXPECT_NEAR(law->stress(s), mises->stress(s), rounding);
        EXPECT_LT((law->at(s).gradient - mises->at(s).gradient).norm(), rounding);
        EXPECT_LT((law->at(s).curvature - mises->at(s).curvature).norm(), rounding);
    }
}

// Isotropic with exponent a: 2 s^a = |s1|^a + |s2|^a + |s1 - s2|^a. Source: hosford-1972; plane
// strain (stress ratio 1/2) by its closed form (2/(1 + 2^(1 - a)))^(1/a), 1.089447 for a = 8.
TEST(Yld2000, WithAllOnesIsTheIsotropicLawOfAnyExponent) {
    for (const double a : {2.0, 6.0, 6.5, 8.0, 20.0}) {
        const auto law = support::yld2000(a, ones);
        EXPECT_NEAR(law->stress({1, 0, 0}), 1, rounding) << a;
        EXPECT_NEAR(law->stress({1, 1, 0}), 1, rounding) << a;
        const double plane = std::pow(2 / (1 + std::pow(2, 1 - a)), 1 / a);
        EXPECT_NEAR(1 / law->stress({1, 0.5, 0}), plane, rounding) << a;
        const double s1 = 3;
        const double s2 = -1; // of the stress (1, 1, 2)
        const double power = std::pow(s1, a) + std::pow(-s2, a) + std::pow(s1 - s2, a);
        EXPECT_NEAR(law->stress({1, 1, 2}), std::pow(0.5 * power, 1 / a), 1e-11) << a;
    }
    EXPECT_NEAR(1 / support::yld2000(8, ones)->stress({1, 0.5, 0}), 1.089447, 5e-7);
}

// Equal biaxial tension of an isotropic sheet: flow is equal both ways. In shear the law is
// (2^(a-1) + 1)^(1/a) t, so the curvature along the shear at s(1, 1) is that of 1 + c t^2:
// 2 s^a = (s + t)^a + (s - t)^a + (2 t)^a gives c = (a - 1)/2 for a > 2.
TEST(Yld2000, HasTheCurvatureOfTheExpansionWherePrincipalValuesMeet) {
    for (const double a : {6.0, 6.5, 8.0}) {
        const YieldPoint point = support::yld2000(a, ones)->at({1, 1, 0});
        EXPECT_LT((point.gradient - Eigen::Vector3d(0.5, 0.5, 0)).norm(), rounding) << a;
        EXPECT_NEAR(point.curvature(2, 2), a - 1, 1e-11) << a;
        EXPECT_NEAR(point.curvature(0, 0), 0.25 * (a - 1), 1e-11) << a;
        EXPECT_NEAR(point.curvature(0, 1), -0.25 * (a - 1), 1e-11) << a;
    }
}

// The transformed stress whose principal values meet lies elsewhere than the stress's own; past the
// place where a series takes over nothing jumps.
TEST(Yld2000, ChangesSmoothlyRoundMeetingPrincipalValues) {
    for (const double a : {6.5, 8.0}) {
        const auto law = support::yld2000(a, uneven);
        // Half difference of X'' vanishes where its two rows agree: sought along (1, ratio, 0).
        double low = 0.2;
        double high = 3;
        const auto difference = [](double ratio) {
            const auto& c = uneven;
            const double l11 = -2 * c[2] + 2 * c[3] + 8 * c[4] - 2 * c[5];
            const double l12 = c[2] - 4 * c[3] - 4 * c[4] + 4 * c[5];
            const double l21 = 4 * c[2] - 4 * c[3] - 4 * c[4] + c[5];
            const double l22 = -2 * c[2] + 8 * c[3] + 2 * c[4] - 2 * c[5];
            return l11 + l12 * ratio - l21 - l22 * ratio;
        };
        ASSERT_LT(difference(low) * difference(high), 0);
        for (int halving = 0; halving < 200; ++halving) {
            const double middle = 0.5 * (low + high);
            (difference(low) * difference(middle) > 0 ? low : high) = middle;
        }
        const YieldPoint met = law->at({1, low, 0});
        // Even in the shear: what is left of gradient and curvature falls with these powers of it,
        // down to rounding, on both sides of the place where the series takes over.
        const auto left = [&](double off) -> std::array<double, 3> {
            const YieldPoint point = law->at({1, low, off});
            return {
                std::abs(point.gradient[0] - met.gradient[0]) / (off * off),
                std::abs(point.gradient[2] / off - met.curvature(2, 2)) / (off * off),
                (point.curvature - met.curvature).norm() / off};
        };
        constexpr double farthest = 0.004;
        const auto [slope, shear, curvature] = left(farthest);
        for (double off = 1e-14; off < farthest; off *= 1.9) {
            const auto [slope_now, shear_now, curvature_now] = left(off);
            EXPECT_LT(slope_now, 1.1 * slope + 1e-14 / (off * off)) << off;
            EXPECT_LT(shear_now, 1.1 * shear + 1e-11 / (off * off)) << off;
            EXPECT_LT(curvature_now, 1.1 * curvature + 1e-11 / off) << off;
        }
    }
}

TEST(Yld2000, RefusesOtherThanEightNumbers) {
    const auto objection = entry().objection({{"exponent", {8}}, {"alpha", {1, 1, 1, 1, 1, 1, 1}}});
    ASSERT_TRUE(objection.has_value());
    EXPECT_EQ(objection->first, "alpha");
    EXPECT_EQ(objection->second, "eight numbers, alpha 1 to 8");
    EXPECT_FALSE(entry().objection({{"exponent", {8}}, {"alpha", ones}}));
}

// Numbers fitted to another stress than tension along the rolling direction would move the curve.
TEST(Yld2000, RefusesNumbersThatBelongToAnotherReference) {
    std::vector<double> alpha = uneven;
    for (double& value : alpha) {
        value *= 1.2;
    }
    EXPECT_TRUE(entry().objection({{"exponent", {8}}, {"alpha", alpha}}));
    EXPECT_FALSE(entry().objection({{"exponent", {8}}, {"alpha", uneven}}));
}

} // namespace
} // namespace flangewright::material
