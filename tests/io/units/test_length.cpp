#include "io/units/length.hpp"

#include <gtest/gtest.h>

namespace flangewright::units {
namespace {

double mm(std::string_view text, LengthUnit unit = LengthUnit::millimetre) {
    const Written length = read_length(text, unit);
    EXPECT_TRUE(length.has_value()) << text;
    return length.value_or(-1);
}

// Source: 1 in = 25.4 mm by definition (ISO 80000-3).
TEST(Length, IsReadAsAShopWritesIt) {
    EXPECT_DOUBLE_EQ(mm("0.8 mm"), 0.8);
    EXPECT_DOUBLE_EQ(mm("0.032 in"), 0.8128);
    EXPECT_DOUBLE_EQ(mm(".032in"), 0.8128);
    EXPECT_DOUBLE_EQ(mm("1/32 in"), 0.79375);
    EXPECT_DOUBLE_EQ(mm("1 1/4 in"), 31.75);
    EXPECT_DOUBLE_EQ(mm("1-1/4 in"), 31.75);
    EXPECT_DOUBLE_EQ(mm("32 thou"), 0.8128);
    EXPECT_DOUBLE_EQ(mm("3\""), 76.2);
    EXPECT_DOUBLE_EQ(mm("2 m"), 2000);
    EXPECT_DOUBLE_EQ(mm("  4 cm "), 40);
    EXPECT_DOUBLE_EQ(mm("-1/2 in"), -12.7);
    EXPECT_DOUBLE_EQ(mm("8e-1 mm"), 0.8);
}

TEST(Length, WithoutUnitIsInTheFilesUnit) {
    EXPECT_DOUBLE_EQ(mm("2"), 2);
    EXPECT_DOUBLE_EQ(mm("2", LengthUnit::inch), 50.8);
    EXPECT_DOUBLE_EQ(mm("1 1/4", LengthUnit::inch), 31.75);
    EXPECT_DOUBLE_EQ(mm("2 mm", LengthUnit::inch), 2);
    EXPECT_DOUBLE_EQ(length_of(2, LengthUnit::inch), 50.8);
}

TEST(Length, RefusesWhatIsNone) {
    for (const char* text :
         {"",
          "mm",
          "thick",
          "1/0 in",
          "1/ in",
          "0.8 mmm",
          "1.5 1/4 in",
          "nan",
          "inf mm",
          "--1 mm",
          "0x10 mm",
          "1 2 in",
          "1 kg"}) {
        EXPECT_FALSE(read_length(text, LengthUnit::millimetre).has_value()) << text;
    }
    EXPECT_EQ(
        read_length("0,8 mm", LengthUnit::millimetre).error().remedy, "write a point, not a comma"
    );
}

TEST(Length, IsWrittenInBothUnits) {
    EXPECT_EQ(in_mm(0.8128), "0.813 mm");
    EXPECT_EQ(in_mm(40), "40 mm");
    EXPECT_EQ(in_inch(0.8128), "0.032 in");
    EXPECT_EQ(side_by_side(0.8128, LengthUnit::inch), "0.032 in (0.813 mm)");
    EXPECT_EQ(side_by_side(3, LengthUnit::millimetre), "3 mm (0.118 in)");
}

TEST(Length, IsWrittenAsAFractionAndRoundedUpWhenAsked) {
    EXPECT_EQ(in_inch_fraction(31.75, Rounding::nearest), "1 1/4 in");
    EXPECT_EQ(in_inch_fraction(0.79375, Rounding::nearest), "1/32 in");
    EXPECT_EQ(in_inch_fraction(31.8, Rounding::nearest), "1 1/4 in");
    EXPECT_EQ(in_inch_fraction(31.8, Rounding::up), "1 17/64 in");
    EXPECT_EQ(in_inch_fraction(25.4, Rounding::up), "1 in");
    EXPECT_EQ(in_inch_fraction(0, Rounding::up), "0 in");
}

} // namespace
} // namespace flangewright::units
