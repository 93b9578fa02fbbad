#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::material {
namespace {

constexpr double rounding = 1e-14;

// Closed forms: plane strain at 2/sqrt3 of the tensile stress (reference benchmarks 08), pure shear
// at 1/sqrt3.
TEST(VonMises, FlowsWhereTheClosedFormsSay) {
    const auto law = support::yield_law("von_mises", {});
    EXPECT_NEAR(law->stress({1, 0, 0}), 1, rounding);
    EXPECT_NEAR(law->stress({1, 1, 0}), 1, rounding);
    EXPECT_NEAR(1 / law->stress({1, 0.5, 0}), 1.154701, 5e-7); // digits printed
    EXPECT_NEAR(law->stress({0, 0, 1}), std::sqrt(3.0), rounding);
    EXPECT_NEAR(law->at({1, 0.5, 0}).gradient[1], 0, rounding);
}

} // namespace
} // namespace flangewright::material
