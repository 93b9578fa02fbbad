#include "solver/limits/groove.hpp"
#include "solver/limits/necking.hpp"
#include "tests/support/flow_law.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

namespace flangewright::limits {
namespace {

const std::shared_ptr<const material::YieldLaw> von_mises = support::yield_law("von_mises", {});

double neck_at(
    const material::HardeningLaw& hardening,
    const std::vector<RollingStrain>& strains,
    double normal,
    const GrooveChoice& choice = {}
) {
    return strain_at_neck(
        {hardening, *von_mises}, stretches_of(*von_mises, strains), normal, choice
    );
}

// Groove and sheet carry the same force and strain alike along the groove, so in plane strain the
// groove of a power law takes all at the exact root 0.143111 (groove-references, n 0.2, f 0.99).
TEST(Groove, InPlaneStrainTakesAllAtTheExactRoot) {
    constexpr double root = 0.143111;
    const auto law = support::swift(500, 1e-6, 0.2);
    const double equivalent = equivalent_per_major(0);
    const double found = neck_at(*law, {{1, 0, 0}}, 0) / equivalent;
    EXPECT_NEAR(found, root, 0.01 * root); // default increment
    const double fine = neck_at(*law, {{1, 0, 0}}, 0, {.step = 0.002}) / equivalent;
    EXPECT_NEAR(fine, root, 0.001 * root);
}

TEST(Groove, OfLessThicknessTakesAllSooner) {
    const auto law = support::swift(500, 0.01, 0.2);
    const double deep = neck_at(*law, {{1, 0.3, 0}}, 0, {.thickness_ratio = 0.98});
    const double shallow = neck_at(*law, {{1, 0.3, 0}}, 0, {.thickness_ratio = 0.995});
    EXPECT_LT(deep, 0.9 * shallow);
}

TEST(Groove, AlongTheStretchDoesNotNeckInUniaxialTension) {
    const auto law = support::swift(500, 0.01, 0.2);
    const double across = neck_at(*law, {{1, -0.5, 0}}, 0);
    const double slanted = neck_at(*law, {{1, -0.5, 0}}, 0.4);
    EXPECT_GT(across, 1.05 * slanted);
    EXPECT_GT(neck_at(*law, {{1, -0.5, 0}}, 0.5 * std::numbers::pi), 2 * slanted);
}

TEST(Groove, OfASheetThatIsPressedTogetherOrShearedNeverTakesAll) {
    const auto swift = support::swift(500, 0.01, 0.2);
    const auto voce = support::flow_law(
        "voce", {{"yield_stress", {120}}, {"saturation_stress", {300}}, {"rate", {12}}}
    );
    for (const auto* law : {swift.get(), voce.get()}) {
        for (const RollingStrain& strain : std::vector<RollingStrain>{
                 {-1, 0, 0}, {-1, -1, 0}, {-1, 0.5, 0}, {0, 0, 1}, {0.5, -0.5, 0}, {0, 0, 0}}) {
            for (const double normal : {0.0, 0.5, 1.0, 1.5}) {
                EXPECT_EQ(neck_at(*law, {strain}, normal), std::numeric_limits<double>::infinity())
                    << strain.transpose();
            }
        }
    }
}

// A corner of the path lets the groove jump; it must not be taken for a neck.
TEST(Groove, SurvivesASharpTurnOfThePath) {
    const auto law = support::swift(500, 0.01, 0.2);
    const double turned = neck_at(*law, {{0.03, -0.015, 0}, {0, 0.1, 0}}, 0.5 * std::numbers::pi);
    EXPECT_GT(turned, 0.12);
    EXPECT_LT(turned, 0.25);
}

TEST(Groove, AnswersANumberForAnyPathInAnySheet) {
    const auto law = support::swift(500, 0.002, 0.25);
    std::mt19937 random(11); // NOLINT(bugprone-random-generator-seed): the same each time
    std::uniform_real_distribution<double> part(-0.04, 0.06);
    int n_necks = 0;
    for (const support::YieldSet& set : support::yield_sets()) {
        for (int i = 0; i < 40; ++i) {
            std::vector<RollingStrain> strains;
            for (int k = 0; k < 6; ++k) {
                strains.emplace_back(part(random), part(random), part(random));
            }
            const double strain = strain_at_neck(
                {*law, *set.law}, stretches_of(*set.law, strains), part(random) * 40, {}
            );
            EXPECT_GT(strain, 0) << set.name << i;
            n_necks += std::isfinite(strain) ? 1 : 0;
        }
    }
    EXPECT_GT(n_necks, 20);
}

} // namespace
} // namespace flangewright::limits
