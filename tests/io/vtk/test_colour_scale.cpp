#include "io/vtk/colour_scale.hpp"

#include <gtest/gtest.h>

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

} // namespace
} // namespace flangewright::vtk
