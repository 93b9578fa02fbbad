#include "io/vtk/colour_scale.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace flangewright::vtk {
namespace {

TEST(RoundUp, GivesARoundNumberNotBelow) {
    EXPECT_DOUBLE_EQ(round_up(9.83), 10);
    EXPECT_DOUBLE_EQ(round_up(0.063), 0.08);
    EXPECT_DOUBLE_EQ(round_up(10), 10);
    EXPECT_DOUBLE_EQ(round_up(10.1), 15);
    EXPECT_DOUBLE_EQ(round_up(0.3), 0.3);
}

TEST(RoundUp, IsOneForWhatHasNoSize) {
    EXPECT_EQ(round_up(0), 1);
    EXPECT_EQ(round_up(-4), 1);
    EXPECT_EQ(round_up(std::numeric_limits<double>::quiet_NaN()), 1);
    EXPECT_EQ(round_up(std::numeric_limits<double>::infinity()), 1);
}

// Numbers beside a scale that one can count by: 0, 2, 4, 6, 8 and not 0, 1.6, 3.2 ...
TEST(ScaleSteps, AreRoundForEveryTopThatAScaleHas) {
    for (const double power : {0.001, 0.1, 1.0, 10.0}) {
        for (const double top : {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0}) {
            ASSERT_DOUBLE_EQ(round_up(top * power), top * power);
            const double step = top * power / n_scale_steps(top * power);
            bool is_round = false;
            for (const double round : {0.2, 0.5, 1.0, 2.0}) {
                is_round = is_round || std::abs(step / (round * power) - 1) < 1e-9;
            }
            EXPECT_TRUE(is_round) << step << " up to " << top * power;
        }
    }
}

TEST(ScaleSteps, AreWrittenWithAsManyDecimalsAsTheyNeed) {
    EXPECT_EQ(n_decimals_for(5), 0);
    EXPECT_EQ(n_decimals_for(1), 0);
    EXPECT_EQ(n_decimals_for(0.5), 1);
    EXPECT_EQ(n_decimals_for(0.1), 1);
    EXPECT_EQ(n_decimals_for(0.02), 2);
    EXPECT_EQ(n_decimals_for(0), 0);
}

} // namespace
} // namespace flangewright::vtk
