#include "io/units/angle.hpp"
#include "io/units/percent.hpp"

#include <gtest/gtest.h>

namespace flangewright::units {
namespace {

TEST(Percent, NeedsItsSign) {
    EXPECT_DOUBLE_EQ(*read_percent("16 %"), 0.16);
    EXPECT_DOUBLE_EQ(*read_percent("16%"), 0.16);
    EXPECT_FALSE(read_percent("16").has_value());
    EXPECT_FALSE(read_percent("16 mm").has_value());
    EXPECT_EQ(percent_text(0.165, 1), "16.5 %");
    EXPECT_EQ(percent_text(0.16, 1), "16 %");
}

TEST(Angle, GoesToRadiansAndBackOnce) {
    EXPECT_DOUBLE_EQ(radians(180), std::numbers::pi);
    EXPECT_DOUBLE_EQ(degrees(radians(37.5)), 37.5);
}

} // namespace
} // namespace flangewright::units
