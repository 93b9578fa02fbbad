// Source: Gauss and Legendre's rule with n points integrates polynomials up to degree 2n - 1
// exactly (Abramowitz and Stegun 1964, 25.4.29).
#include "solver/shell/layer_rule.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::shell {
namespace {

constexpr double rounding = 1e-14;

class Layers : public testing::TestWithParam<int> {};

double integral(const LayerRule& rule, int power) {
    double sum = 0;
    for (std::size_t k = 0; k < rule.position.size(); ++k) {
        sum += rule.weight[k] * std::pow(2 * rule.position[k], power);
    }
    return sum;
}

TEST_P(Layers, IntegratePolynomialsExactly) {
    const LayerRule rule = gauss_layers(GetParam());
    for (int power = 0; power < 2 * GetParam(); ++power) {
        EXPECT_NEAR(integral(rule, power), power % 2 == 0 ? 1.0 / (power + 1) : 0, rounding);
    }
}

TEST_P(Layers, DoNotIntegrateTheNextPowerExactly) {
    if (GetParam() > 16) {
        return; // what is missing has fallen below rounding
    }
    const int power = 2 * GetParam();
    EXPECT_GT(std::abs(integral(gauss_layers(GetParam()), power) - 1.0 / (power + 1)), 1e-11);
}

TEST_P(Layers, RiseWithinTheSheetAndMirrorEachOther) {
    const LayerRule rule = gauss_layers(GetParam());
    const std::size_t n = rule.position.size();
    ASSERT_EQ(static_cast<int>(n), GetParam());
    for (std::size_t k = 0; k < n; ++k) {
        EXPECT_LT(std::abs(rule.position[k]), 0.5);
        EXPECT_GT(rule.weight[k], 0);
        EXPECT_NEAR(rule.position[k], -rule.position[n - 1 - k], rounding);
        if (k > 0) {
            EXPECT_GT(rule.position[k], rule.position[k - 1]);
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Of, Layers, testing::Values(1, 2, 3, 7, 12, 16, 64));

TEST(LayerRule, AnEvenNumberLeavesTheNeutralFibreFree) {
    for (const int n : {2, 8, 16}) {
        for (const double position : gauss_layers(n).position) {
            EXPECT_GT(std::abs(position), 0.01);
        }
    }
    EXPECT_NEAR(gauss_layers(7).position[3], 0, rounding);
}

// Published: the two-point rule lies at plus and minus 1/sqrt3 (same table).
TEST(LayerRule, TwoLayersLieAtOneOverRootThree) {
    EXPECT_NEAR(gauss_layers(2).position[1], 0.5 * 0.577350269189626, rounding);
}

} // namespace
} // namespace flangewright::shell
