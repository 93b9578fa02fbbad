#include "solver/material/scaled_hardening.hpp"
#include "tests/support/flow_law.hpp"

#include <gtest/gtest.h>

namespace flangewright::material {
namespace {

TEST(ScaledHardening, ScalesYieldAndRiseApart) {
    const auto law = support::swift(330, 0.0032, 0.22);
    const auto scaled = scaled_hardening(law, 1.1, 0.8);
    EXPECT_NEAR(scaled->at(0).stress, 1.1 * law->at(0).stress, 1e-9);
    for (const double p : {0.01, 0.1, 0.4}) {
        EXPECT_NEAR(
            scaled->at(p).stress - scaled->at(0).stress,
            0.8 * (law->at(p).stress - law->at(0).stress),
            1e-9
        );
        EXPECT_NEAR(scaled->at(p).slope, 0.8 * law->at(p).slope, 1e-9);
    }
}

TEST(ScaledHardening, ByOneIsTheLawItself) {
    const auto law = support::swift(330, 0.0032, 0.22);
    EXPECT_EQ(scaled_hardening(law, 1, 1)->at(0.1).stress, law->at(0.1).stress);
}

} // namespace
} // namespace flangewright::material
