#include "io/tables/shown_length.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace flangewright::tables {
namespace {

using units::LengthUnit;

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

TEST(ShownLength, GivesTheUsersUnitFirstAndMmBeside) {
    EXPECT_EQ(shown_length(0.8128, LengthUnit::inch), "0.032 in (0.81 mm)");
    EXPECT_EQ(shown_length(0.8128, LengthUnit::millimetre), "0.81 mm");
}

TEST(ShownLength, AddsTheNearestFractionForLayout) {
    EXPECT_EQ(
        shown_layout_length(25.4 * 81 / 64, LengthUnit::inch), "1 17/64 in (1.266 in, 32.15 mm)"
    );
    EXPECT_EQ(shown_layout_length(25.4, LengthUnit::inch), "1 in (1.000 in, 25.40 mm)");
    EXPECT_EQ(shown_layout_length(32.15, LengthUnit::millimetre), "32.15 mm");
}

TEST(ShownLength, IsBriefWhereRoomIsShort) {
    EXPECT_EQ(brief_length(0.8128, LengthUnit::inch), "0.032 in");
    EXPECT_EQ(brief_length(0.8128, LengthUnit::millimetre), "0.81 mm");
    EXPECT_EQ(brief_length(not_a_number, LengthUnit::inch), "not known");
}

TEST(ShownLength, RoundsErrorsUp) {
    EXPECT_EQ(shown_error(0.031, 1), "0.1");
    EXPECT_EQ(shown_error(-0.2, 1), "0.2");
    EXPECT_EQ(shown_error(0.3001, 2), "0.31");
    EXPECT_EQ(shown_error(0, 1), "0.0");
}

TEST(ShownLength, NeverShowsWhatIsNoNumber) {
    EXPECT_EQ(shown_length(infinity, LengthUnit::inch), "not known");
    EXPECT_EQ(shown_length(not_a_number, LengthUnit::millimetre), "not known");
    EXPECT_EQ(shown_layout_length(not_a_number, LengthUnit::inch), "not known");
    EXPECT_EQ(shown_number(not_a_number, 1), "not known");
}

TEST(ShownNumber, HasNoMinusBeforeZero) {
    EXPECT_EQ(shown_number(-0.04, 1), "0.0");
    EXPECT_EQ(shown_number(-0.06, 1), "-0.1");
}

TEST(StretchPercent, TurnsLogStrainIntoPerCentOfLength) {
    constexpr double rounding = 1e-12;
    EXPECT_NEAR(stretch_percent(std::log(1.1)), 10, rounding);
    EXPECT_NEAR(stretch_percent(std::log(0.9)), -10, rounding);
}

} // namespace
} // namespace flangewright::tables
