// Where a slope vanishes between two places.
#include "solver/equilibrium/energy_slope.hpp"

#include <gtest/gtest.h>

namespace flangewright::equilibrium {
namespace {

TEST(LevelBetween, IsWhereAStraightLineCrossesZero) {
    EXPECT_NEAR(level_between({0.2, -3}, {0.6, 1}), 0.5, 1e-15);
}

TEST(LevelBetween, StaysOffBothEnds) {
    EXPECT_NEAR(level_between({0, -1e-9}, {1, 1}), 0.1, 1e-15);
    EXPECT_NEAR(level_between({0, -1}, {1, 1e-9}), 0.9, 1e-15);
}

} // namespace
} // namespace flangewright::equilibrium
