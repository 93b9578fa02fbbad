// The form block: face at height 0, nose of radius 3 from the bend tangent on, wall.
#include "solver/tooling/surface/form_block.hpp"
#include "tests/solver/tooling/surface/surface_claims.hpp"

#include <cmath>
#include <numbers>

namespace flangewright::tooling {
namespace {

constexpr double R = 3;

class BlockOfWallAngle : public testing::TestWithParam<double> {
protected:
    const double angle = GetParam() * std::numbers::pi / 180;
    const FormBlock block{R, angle};
};

TEST_P(BlockOfWallAngle, IsADistanceFunction) {
    expect_a_distance_function(block, [this](const SectionPoint& point) {
        const SectionPoint arm = point - SectionPoint(0, -R);
        const double turned = std::atan2(arm[0], arm[1]);
        const double margin = 1e-3;
        // Under the nose's centre the face's side and the wall's side meet: the skeleton.
        return std::abs(arm[0]) < margin || std::abs(turned - angle) * arm.norm() < margin
            || arm.norm() < 1 || (arm[1] < 0 && std::abs(turned) > angle - 1)
            || (turned < 0 && arm[1] < 0);
    });
}

// The opposite of a seam: face, nose and wall join with neither step nor kink.
TEST_P(BlockOfWallAngle, JoinsFaceNoseAndWallSmoothly) {
    for (const double turned : {0.0, angle}) {
        const Eigen::Vector2d radial(std::sin(turned), std::cos(turned));
        const Eigen::Vector2d along(std::cos(turned), -std::sin(turned));
        const SectionPoint seam = SectionPoint(0, -R) + (R + 0.5) * radial;
        const SurfaceReading before = block.at(seam - 1e-9 * along);
        const SurfaceReading after = block.at(seam + 1e-9 * along);
        EXPECT_NEAR(before.distance, 0.5, 1e-8);
        EXPECT_NEAR(after.distance, 0.5, 1e-8);
        EXPECT_LT((before.normal - after.normal).norm(), 1e-8);
    }
}

TEST_P(BlockOfWallAngle, LiesBelowItsFaceAndBehindItsWall) {
    EXPECT_DOUBLE_EQ(block.at({-5, 2}).distance, 2);
    EXPECT_DOUBLE_EQ(block.at({-5, -1}).distance, -1);
    const Eigen::Vector2d radial(std::sin(angle), std::cos(angle));
    const Eigen::Vector2d down_the_wall(std::cos(angle), -std::sin(angle));
    // The last place lies behind the bend tangent when the wall is undercut.
    for (const double down : {1.0, 4.0, 9.0}) {
        const SectionPoint on_wall = SectionPoint(0, -R) + R * radial + down * down_the_wall;
        EXPECT_NEAR(block.at(on_wall).distance, 0, 1e-12) << down;
        EXPECT_NEAR(block.at(on_wall + 0.7 * radial).distance, 0.7, 1e-12) << down;
        EXPECT_LT((block.at(on_wall).normal - radial).norm(), 1e-12) << down;
    }
}

INSTANTIATE_TEST_SUITE_P(Deg, BlockOfWallAngle, testing::Values(60, 90, 120));

const outline::Profile bevel({{0, 1.2}, {40, 1.8}});

TEST(BlockOfVaryingAngle, IsAtEachStationTheBlockOfTheAngleThere) {
    const FormBlock varying(R, 1.8, bevel);
    for (const double station : {5.0, 20.0, 33.0}) {
        const FormBlock plain(R, bevel.at(station));
        for (const SectionPoint& point : {SectionPoint(-4, 1), SectionPoint(2, 0.5), {3.5, -7}}) {
            const SurfaceReading here = varying.at_station(point, station).surface;
            EXPECT_EQ(here.distance, plain.at(point).distance);
            EXPECT_EQ(here.normal, plain.at(point).normal);
        }
    }
    EXPECT_EQ(varying.at({3.5, -7}).distance, FormBlock(R, 1.8).at({3.5, -7}).distance);
}

TEST(BlockOfVaryingAngle, ChangesAlongTheLineAsItSays) {
    const FormBlock block(R, 1.8, bevel);
    double largest = 0;
    for (const SectionPoint& point : {SectionPoint(-4, 1), SectionPoint(2, 0.5), {3.5, -9}}) {
        // Over both rounded corners.
        largest = std::max(largest, expect_changes_along_line(block, point, 1.03, 45, 0.7));
    }
    EXPECT_GT(largest, 0.05);
}

TEST(FormBlock, OfSquareWallStandsOneNoseRadiusPastTheTangent) {
    const FormBlock block(R, 0.5 * std::numbers::pi);
    EXPECT_NEAR(block.at({R + 0.25, -10}).distance, 0.25, 1e-12);
}

} // namespace
} // namespace flangewright::tooling
