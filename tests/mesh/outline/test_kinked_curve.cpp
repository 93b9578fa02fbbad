#include "mesh/outline/kinked_curve.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

namespace flangewright::outline {
namespace {

using Eigen::Vector2d;
using testing::ElementsAre;

constexpr double degree = std::numbers::pi / 180;
constexpr double rounding = 1e-9;

TEST(KinkedCurve, IsSplitAtEachCornerIntoStraights) {
    const std::vector<Vector2d> points{{0, 0}, {20, 0}, {40, 0}, {40, 30}, {40, 60}, {70, 60}};
    const KinkedCurve curve = curve_between_kinks(points);
    EXPECT_THAT(curve.kinks, ElementsAre(2, 4));
    ASSERT_EQ(curve.runs.size(), 3U);
    EXPECT_NEAR(curve.runs[0].turn_after, 90 * degree, rounding);
    EXPECT_NEAR(curve.runs[1].turn_after, -90 * degree, rounding);
    double length = 0;
    for (const SmoothRun& run : curve.runs) {
        for (const Piece& piece : run.pieces) {
            EXPECT_NEAR(piece.curvature, 0, rounding);
            length += piece.length;
        }
    }
    EXPECT_NEAR(length, 130, rounding);
    EXPECT_EQ(curve.from_point[1].front(), 2U);
    EXPECT_EQ(curve.from_point[2].back(), 4U);
}

// At a corner between circle and straight the chord turns by half a step less than the curve.
TEST(KinkedCurve, TurnsAtAKinkAsTheCurvesDo) {
    std::vector<Vector2d> points;
    for (int i = 0; i <= 5; ++i) {
        points.emplace_back(100 * std::sin(8 * degree * i), -100 * std::cos(8 * degree * i));
    }
    const Vector2d corner = points.back(); // left there at 40 deg, on at 100 deg
    for (int i = 1; i <= 3; ++i) {
        points.push_back(
            corner + 15.0 * i * Vector2d(std::cos(100 * degree), std::sin(100 * degree))
        );
    }
    const KinkedCurve curve = curve_between_kinks(points);
    EXPECT_THAT(curve.kinks, ElementsAre(5));
    EXPECT_NEAR(curve.runs[0].turn_after, 60 * degree, rounding);
    for (const Piece& piece : curve.runs[0].pieces) {
        EXPECT_NEAR(piece.curvature * 100, 1, rounding);
    }
}

TEST(KinkedCurve, OfPointsWithoutKinksIsOneRun) {
    const std::vector<Vector2d> points{{0, 0}, {10, 1}, {20, 4}, {30, 9}};
    const KinkedCurve curve = curve_between_kinks(points);
    EXPECT_TRUE(curve.kinks.empty());
    EXPECT_EQ(curve.runs.size(), 1U);
}

} // namespace
} // namespace flangewright::outline
