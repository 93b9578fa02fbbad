#include "tests/solver/material/hardening/law_by_name.hpp"

#include <gtest/gtest.h>

namespace flangewright::material {
namespace {

// Source: aluminum-association-typical, 2024-O: 75.8 MPa proof stress and 186.2 MPa tensile
// strength, the latter as true stress 186.2 * 1.16 = 216 MPa at ln 1.16 less the elastic strain.
TEST(TableHardening, ReturnsThePublishedPointsAndStraightBetween) {
    const double strain = std::log(1.16) - 216.0 / 73100;
    const auto law = entry_named("table").make(
        {{"plastic_strain", {0, strain, 0.5}}, {"stress", {75.8, 186.2 * 1.16, 229}}}
    );
    EXPECT_DOUBLE_EQ(law->at(0).stress, 75.8);
    EXPECT_NEAR(law->at(strain).stress * std::exp(-std::log(1.16)), 186.2, 1e-9);
    EXPECT_NEAR(law->at(0.5 * strain).stress, 0.5 * (75.8 + 186.2 * 1.16), 1e-9);
    EXPECT_DOUBLE_EQ(law->at(0.9).stress, 229);
    EXPECT_DOUBLE_EQ(law->at(0.9).slope, 0);
}

std::string objection_key(const std::vector<double>& strains, const std::vector<double>& stresses) {
    const auto objection =
        entry_named("table").objection({{"plastic_strain", strains}, {"stress", stresses}});
    return objection ? objection->first : "";
}

TEST(TableHardening, RefusesTablesThatAreNoCurve) {
    EXPECT_EQ(objection_key({0}, {75}), "plastic_strain");
    EXPECT_EQ(objection_key({0, 0.1}, {75}), "stress");
    EXPECT_EQ(objection_key({0.01, 0.1}, {75, 80}), "plastic_strain");
    EXPECT_EQ(objection_key({0, 0.1, 0.1}, {75, 80, 90}), "plastic_strain");
    EXPECT_EQ(objection_key({0, 0.1, 0.2}, {75, 80, 79}), "stress");
    EXPECT_EQ(objection_key({0, 0.1, 0.2}, {75, 80, 80}), "");
}

} // namespace
} // namespace flangewright::material
