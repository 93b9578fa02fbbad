#include "solver/limits/local_neck.hpp"
#include "solver/limits/necking.hpp"
#include "tests/support/flow_law.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

namespace flangewright::limits {
namespace {

const std::shared_ptr<const material::YieldLaw> von_mises = support::yield_law("von_mises", {});
const std::shared_ptr<const material::HardeningLaw> swift = support::swift(500, 0.01, 0.2);

NeckShare share_of(const std::vector<RollingStrain>& strains) {
    return share_to_neck({*swift, *von_mises}, stretches_of(*von_mises, strains), {});
}

TEST(LocalNeck, UsesAStraightPathInProportion) {
    const NeckShare whole = share_of({{0.10, 0.02, 0}});
    const NeckShare half = share_of({{0.05, 0.01, 0}});
    EXPECT_GT(whole.share, 0.3);
    EXPECT_NEAR(whole.at_neck, half.at_neck, 1e-9);
    EXPECT_NEAR(half.share, 0.5 * whole.share, 1e-9);
}

// Steps of the path cut the increments elsewhere: the time step's error, no more.
TEST(LocalNeck, DoesNotDependOnHowAStraightPathIsCut) {
    constexpr double of_increments = 0.01;
    const std::vector<RollingStrain> pieces(12, RollingStrain(0.01, 0.003, 0));
    const NeckShare one = share_of({{0.12, 0.036, 0}});
    EXPECT_NEAR(share_of(pieces).share, one.share, of_increments * one.share);
}

TEST(LocalNeck, OnTheWayGivesAShareAboveOne) {
    EXPECT_GT(share_of({{0.25, 0, 0}, {0.05, 0.05, 0}}).share, 1.2);
}

TEST(LocalNeck, OfAnIsotropicSheetDoesNotKnowTheRollingDirection) {
    constexpr double of_angles = 0.005;
    const NeckShare straight = share_of({{0.1, -0.03, 0}, {0.05, 0, 0}});
    constexpr double a = 0.7;
    const auto turned = [](double major, double minor) {
        const double c = std::cos(a);
        const double s = std::sin(a);
        return RollingStrain(
            major * c * c + minor * s * s,
            major * s * s + minor * c * c,
            2 * c * s * (major - minor)
        );
    };
    const NeckShare slanted = share_of({turned(0.1, -0.03), turned(0.05, 0)});
    EXPECT_NEAR(slanted.share, straight.share, of_angles * straight.share);
}

// Hill 1952: tan^2 of the angle between neck and largest stretch is the inverse ratio, 54.7 deg.
TEST(LocalNeck, OfAPulledStripLiesAtHillsAngle) {
    constexpr double of_search = 4 * std::numbers::pi / 180; // a flat minimum, shallow groove
    GrooveChoice shallow;
    shallow.thickness_ratio = 0.999;
    shallow.step = 0.005;
    const NeckShare neck = share_to_neck(
        {*swift, *von_mises},
        stretches_of(*von_mises, std::vector<RollingStrain>{{0.1, -0.05, 0}}),
        shallow
    );
    // The groove turns with the sheet; its present tangent.
    const double major = neck.at_neck;
    const double tangent = std::atan2(
        std::cos(neck.normal) * std::exp(-0.5 * major), -std::sin(neck.normal) * std::exp(major)
    );
    EXPECT_NEAR(std::abs(std::tan(tangent)), std::tan(54.74 * std::numbers::pi / 180), 0.15);
    EXPECT_NEAR(std::atan(std::abs(std::tan(tangent))), 0.9553, of_search);
}

TEST(LocalNeck, KeepsItsShareWhenThePartIsLetGo) {
    const NeckShare held = share_of({{0.1, 0.01, 0}});
    const NeckShare released = share_of({{0.1, 0.01, 0}, {-0.004, -0.001, 0}});
    EXPECT_EQ(released.share, held.share);
}

TEST(LocalNeck, OfAnEmptyOrPressedPathHasUsedNothing) {
    EXPECT_EQ(share_of({}).share, 0);
    EXPECT_EQ(share_of({{-0.2, 0.05, 0}}).share, 0);
    EXPECT_EQ(share_of({{-0.2, 0.05, 0}}).at_neck, std::numeric_limits<double>::infinity());
}

TEST(LocalNeck, OfASheetThatDoesNotHardenIsFarPastItsShare) {
    const support::PerfectFlow flow(100);
    const limits::NeckingSheet sheet{flow, *von_mises};
    const auto path = stretches_of(*von_mises, std::vector<RollingStrain>{{0.02, 0, 0}});
    const double share = share_to_neck(sheet, path, {}).share;
    EXPECT_GT(share, 10);
    EXPECT_TRUE(std::isfinite(share));
    EXPECT_GT(quick_share(path, least_strain_at_neck(sheet, {})), 10);
}

TEST(LocalNeck, QuicklyIsNearTheFullAnswerOnStraightPaths) {
    const double least = least_strain_at_neck({*swift, *von_mises}, {});
    EXPECT_NEAR(least, share_of({{0.1, 0, 0}}).at_neck, 1e-9);
    for (const double ratio : {-0.5, -0.3, 0.0, 0.5}) {
        const std::vector<RollingStrain> strains{{0.03, ratio * 0.03, 0}};
        const double quick = quick_share(stretches_of(*von_mises, strains), least);
        EXPECT_GT(quick, 0.9 * share_of(strains).share) << ratio;
    }
    EXPECT_EQ(
        quick_share(stretches_of(*von_mises, std::vector<RollingStrain>{{-1, 0, 0}}), least), 0
    );
}

} // namespace
} // namespace flangewright::limits
