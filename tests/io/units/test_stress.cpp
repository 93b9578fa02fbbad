#include "io/units/stress.hpp"

#include <gtest/gtest.h>

namespace flangewright::units {
namespace {

// Source: NIST SP 811: 1 ksi = 6.894757 MPa.
TEST(Stress, IsReadInTheUnitsOfDataSheets) {
    const LengthUnit inch = LengthUnit::inch;
    EXPECT_DOUBLE_EQ(*read_stress("76 MPa", inch), 76);
    EXPECT_DOUBLE_EQ(*read_stress("73.1 GPa", inch), 73100);
    EXPECT_DOUBLE_EQ(*read_stress("11 ksi", inch), 75.842327);
    EXPECT_DOUBLE_EQ(*read_stress("11000 psi", inch), 75.842327);
    EXPECT_DOUBLE_EQ(*read_stress("10 Msi", inch), 68947.57);
}

TEST(Stress, WithoutUnitIsOnlyTakenInAMetricFile) {
    EXPECT_DOUBLE_EQ(*read_stress("76", LengthUnit::millimetre), 76);
    EXPECT_FALSE(read_stress("76", LengthUnit::inch).has_value());
    EXPECT_FALSE(stress_of(76, LengthUnit::inch).has_value());
    EXPECT_FALSE(read_stress("76 mm", LengthUnit::millimetre).has_value());
}

TEST(Stress, IsWrittenInTheFilesUnit) {
    EXPECT_EQ(stress_text(75.842327, LengthUnit::inch), "11 ksi");
    EXPECT_EQ(stress_text(75.842327, LengthUnit::millimetre), "75.8 MPa");
}

} // namespace
} // namespace flangewright::units
