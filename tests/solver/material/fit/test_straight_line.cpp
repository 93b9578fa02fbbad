#include "solver/material/fit/straight_line.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace flangewright::material {
namespace {

// By hand: means 2 and 5; slope (1*3 + 0 + 1*2)/2 = 2.5; misses -0.5, 1, -0.5, so their squares add
// to 1.5 and the slope's error is sqrt(1.5 / 1 / 2).
TEST(StraightLine, IsTheLeastSquaresOne) {
    const std::vector<double> x{1, 2, 3};
    const std::vector<double> y{2, 6, 7};
    const StraightLine line = line_through(x, y);
    EXPECT_NEAR(line.slope, 2.5, 1e-12);
    EXPECT_NEAR(line.intercept, 0, 1e-12);
    EXPECT_NEAR(line.slope_error, std::sqrt(1.5 / 2), 1e-12);
    EXPECT_NEAR(slope_through_origin(x, y), (2 + 12 + 21) / 14.0, 1e-12);
}

TEST(StraightLine, OfPointsThatDoNotSpreadIsNotKnown) {
    const std::vector<double> x{2, 2, 2};
    const std::vector<double> y{2, 6, 7};
    EXPECT_TRUE(std::isinf(line_through(x, y).slope_error));
    EXPECT_DOUBLE_EQ(line_through(x, y).slope, 0);
    const std::vector<double> zero{0, 0, 0};
    EXPECT_DOUBLE_EQ(slope_through_origin(zero, y), 0);
}

} // namespace
} // namespace flangewright::material
