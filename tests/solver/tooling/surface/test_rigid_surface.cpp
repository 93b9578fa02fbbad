// The two pieces every profile is made of.
#include "solver/tooling/surface/rigid_surface.hpp"

#include <gtest/gtest.h>

namespace flangewright::tooling {
namespace {

TEST(RoundReading, IsTheDistanceFromTheCentreLessTheRadius) {
    const SurfaceReading reading = round_reading({4, 4}, {1, 0}, 2);
    EXPECT_DOUBLE_EQ(reading.distance, 3);
    EXPECT_DOUBLE_EQ(reading.normal[0], 0.6);
    EXPECT_DOUBLE_EQ(reading.normal[1], 0.8);
    // Along the arc the normal turns by one over the distance from the centre.
    const Eigen::Vector2d tangent(-0.8, 0.6);
    EXPECT_NEAR(tangent.dot(reading.curvature * tangent), 0.2, 1e-15);
    EXPECT_NEAR((reading.curvature * reading.normal).norm(), 0, 1e-15);
}

TEST(RoundReading, GivesNoDirectionAtTheCentre) {
    const SurfaceReading reading = round_reading({1, 0}, {1, 0}, 2);
    EXPECT_DOUBLE_EQ(reading.distance, -2);
    EXPECT_TRUE(reading.normal.isZero());
    EXPECT_TRUE(reading.curvature.allFinite());
}

TEST(FlatReading, IsPositiveOnTheSideTheNormalPointsTo) {
    const Eigen::Vector2d normal(0.6, 0.8);
    EXPECT_DOUBLE_EQ(flat_reading(normal * 2.5, {0, 0}, normal).distance, 2.5);
    EXPECT_DOUBLE_EQ(flat_reading(-normal, {0, 0}, normal).distance, -1);
    EXPECT_TRUE(flat_reading({3, 3}, {0, 0}, normal).curvature.isZero());
}

} // namespace
} // namespace flangewright::tooling
