#include "tests/solver/material/hardening/law_by_name.hpp"

#include <gtest/gtest.h>

namespace flangewright::material {
namespace {

// Source: aluminum-association-typical, 2024-O: proof stress 11 ksi (75.8 MPa), tensile strength
// 27 ksi (186.2 MPa). The parameters were rounded to three digits: within 1 MPa.
TEST(VoceHardening, ReturnsThePublishedTensileStrength) {
    const HardeningEntry& voce = entry_named("voce");
    const auto law = voce.make(voce.example);
    EXPECT_NEAR(law->at(0).stress, 75.8, 1);
    EXPECT_NEAR(maximum_load(*law).engineering_stress, 186.2, 1);
    EXPECT_NEAR(maximum_load(*law).log_strain, std::log(1.16), 0.002); // three-digit rate
}

TEST(VoceHardening, RefusesASaturationBelowYield) {
    const HardeningEntry& voce = entry_named("voce");
    const auto objection =
        voce.objection({{"yield_stress", {200}}, {"saturation_stress", {100}}, {"rate", {10}}});
    ASSERT_TRUE(objection);
    EXPECT_EQ(objection->first, "saturation_stress");
}

} // namespace
} // namespace flangewright::material
