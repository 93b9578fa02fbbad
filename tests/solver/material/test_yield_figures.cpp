#include "solver/material/yield_figures.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <numbers>

namespace flangewright::material {
namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double rounding = 1e-12;

// Source: reference benchmarks 08, 2024-O: sigma45 0.93036, EB 0.88994, rb 1.08333 (digits
// printed).
TEST(YieldFigures, AreThoseOfThePublishedTable) {
    const auto law = support::yield_set("2024-O_hill48");
    EXPECT_NEAR(tension_at(*law, 45 * degree).stress, 0.93036, 5e-6);
    EXPECT_NEAR(biaxial_tension(*law).stress, 0.88994, 5e-6);
    EXPECT_NEAR(biaxial_tension(*law).strain_ratio, 1.08333, 5e-6);
}

TEST(YieldFigures, AreTheSameOnBothSidesOfTheRollingDirection) {
    for (const support::YieldSet& set : support::yield_sets()) {
        for (const double angle : {10.0, 30.0, 77.0}) {
            const DirectionalTension tension = tension_at(*set.law, angle * degree);
            for (const double other : {-angle, 180 - angle, 180 + angle}) {
                const DirectionalTension same = tension_at(*set.law, other * degree);
                EXPECT_NEAR(same.stress, tension.stress, rounding) << set.name << other;
                EXPECT_NEAR(same.r_value, tension.r_value, 10 * rounding) << set.name << other;
            }
        }
    }
}

} // namespace
} // namespace flangewright::material
