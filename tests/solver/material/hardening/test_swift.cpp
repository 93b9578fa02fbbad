#include "tests/solver/material/hardening/law_by_name.hpp"

#include <gtest/gtest.h>

namespace flangewright::material {
namespace {

// Source: kalpakjian-schmid, table 2.3: annealed 1100 aluminium, K = 180 MPa, n = 0.20.
// By definition K is the stress at a strain of 1; Considere's condition for a power law puts
// maximum load at a strain of n (here less the prestrain).
TEST(SwiftHardening, ReachesItsStrengthAtAStrainOfOne) {
    const double prestrain = 1e-4;
    const auto law = entry_named("swift").make(
        {{"strength", {180}}, {"prestrain", {prestrain}}, {"exponent", {0.20}}}
    );
    EXPECT_NEAR(law->at(1 - prestrain).stress, 180, 1e-9);
    EXPECT_NEAR(maximum_load(*law).log_strain, 0.20 - prestrain, 1e-4); // step of the search
}

// Source: the note of the example set (2024-O, flow starts at 72 MPa).
TEST(SwiftHardening, StartsAtTheYieldStressItWasFittedTo) {
    const HardeningEntry& swift = entry_named("swift");
    EXPECT_NEAR(swift.make(swift.example)->at(0).stress, 72, 0.05); // digits of the parameters
}

} // namespace
} // namespace flangewright::material
