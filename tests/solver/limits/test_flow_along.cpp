#include "solver/limits/flow_along.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace flangewright::limits {
namespace {

constexpr double search = 1e-8; // the search ends at 1e-10 of the strain

class FlowAlongStrain : public testing::TestWithParam<support::YieldSet> {};

TEST_P(FlowAlongStrain, IsThatOfTheStressFound) {
    const material::YieldLaw& law = *GetParam().law;
    std::mt19937 random(7); // NOLINT(bugprone-random-generator-seed): the same each time
    std::uniform_real_distribution<double> part(-0.1, 0.1);
    for (int i = 0; i < 300; ++i) {
        const RollingStrain strain(part(random), part(random), part(random));
        const FlowAlong flow = flow_along(law, strain);
        const material::YieldPoint at = law.at(flow.stress);
        EXPECT_NEAR(at.stress, 1, search);
        EXPECT_LT((flow.equivalent * at.gradient - strain).norm(), search * strain.norm()) << i;
        EXPECT_NEAR(flow.stress.dot(strain), flow.equivalent, search);
    }
}

INSTANTIATE_TEST_SUITE_P(
    AllSets,
    FlowAlongStrain,
    testing::ValuesIn(support::yield_sets()),
    [](const auto& set) {
        std::string name = set.param.name;
        std::erase_if(name, [](char c) {
            return std::isalnum(static_cast<unsigned char>(c)) == 0;
        });
        return name;
    }
);

TEST(FlowAlong, OfVonMisesInPlaneStrainIsItsClosedForm) {
    const FlowAlong flow =
        flow_along(*support::yield_law("von_mises", {}), RollingStrain(0.1, 0, 0));
    EXPECT_NEAR(flow.equivalent, 0.2 / std::sqrt(3), search);
    EXPECT_NEAR(flow.stress[0], 2 / std::sqrt(3), search);
    EXPECT_NEAR(flow.stress[1], 1 / std::sqrt(3), search);
}

TEST(FlowAlong, IsNothingForNoStrainAndForNoNumber) {
    const auto law = support::yield_law("von_mises", {});
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(flow_along(*law, RollingStrain::Zero()).equivalent, 0);
    EXPECT_EQ(flow_along(*law, RollingStrain(nan, 0, 0)).equivalent, 0);
}

} // namespace
} // namespace flangewright::limits
