#include "mesh/outline/bend_line.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

namespace flangewright::outline {
namespace {

// Rounding of coordinates up to some 1000 mm.
constexpr double rounding = 1e-10;

std::vector<BendLine> lines() {
    return {
        BendLine::straight(120),
        BendLine::arc(80, 1.2, Curve::concave),
        BendLine::arc(80, 1.2, Curve::convex),
        BendLine::arc(50, 5.5, Curve::concave),
        BendLine::arc(50, 5.5, Curve::convex),
        BendLine::arc(900, 0.01, Curve::concave),
    };
}

TEST(BendLine, LocateIsTheInverseOfPoint) {
    for (const BendLine& line : lines()) {
        for (const double share : {0.0, 0.13, 0.5, 0.77, 1.0}) {
            for (const double distance : {-30.0, -0.5, 0.0, 12.0}) {
                const LinePosition asked{share * line.length(), distance};
                const LinePosition found = line.locate(line.point(asked));
                EXPECT_NEAR(found.station, asked.station, rounding);
                EXPECT_NEAR(found.distance, asked.distance, rounding);
            }
        }
    }
}

TEST(BendLine, LocateIgnoresHeight) {
    for (const BendLine& line : lines()) {
        const Eigen::Vector3d raised = line.point({7, 3}) + Eigen::Vector3d(0, 0, 25);
        EXPECT_NEAR(line.locate(raised).station, 7, rounding);
        EXPECT_NEAR(line.locate(raised).distance, 3, rounding);
    }
}

TEST(BendLine, FrameIsRightHandedAndOfUnitLength) {
    for (const BendLine& line : lines()) {
        for (const double share : {-0.1, 0.0, 0.3, 1.0, 1.1}) {
            const LineFrame frame = line.frame(share * line.length());
            EXPECT_NEAR(frame.tangent.norm(), 1, rounding);
            EXPECT_NEAR(frame.outward.norm(), 1, rounding);
            const Eigen::Vector3d up = frame.tangent.cross(frame.outward);
            EXPECT_NEAR((up - Eigen::Vector3d::UnitZ()).norm(), 0, rounding);
        }
    }
}

TEST(BendLine, TangentIsTheChangeOfThePointWithStation) {
    const double step = 1e-4;
    const double truncation = 1e-8; // step^2 * curvature^2 and rounding over step
    for (const BendLine& line : lines()) {
        const double station = 0.3 * line.length();
        const Eigen::Vector3d change =
            (line.point({station + step, 0}) - line.point({station - step, 0})) / (2 * step);
        EXPECT_NEAR((change - line.frame(station).tangent).norm(), 0, truncation);
    }
}

TEST(BendLine, MiddleLiesAtTheOriginWithTheFlangeTowardY) {
    for (const BendLine& line : lines()) {
        const LineFrame middle = line.frame(0.5 * line.length());
        EXPECT_NEAR(middle.point.norm(), 0, rounding);
        EXPECT_NEAR((middle.tangent - Eigen::Vector3d::UnitX()).norm(), 0, rounding);
        EXPECT_NEAR((middle.outward - Eigen::Vector3d::UnitY()).norm(), 0, rounding);
    }
}

TEST(BendLine, FlangeOfAConcaveArcLiesTowardTheCentre) {
    const BendLine line = BendLine::arc(80, 1.2, Curve::concave);
    const Eigen::Vector3d centre(0, 80, 0);
    EXPECT_NEAR((line.point({10, 0}) - centre).norm(), 80, rounding);
    EXPECT_NEAR((line.point({10, 5}) - centre).norm(), 75, rounding);
}

TEST(BendLine, FlangeOfAConvexArcLiesAwayFromTheCentre) {
    const BendLine line = BendLine::arc(80, 1.2, Curve::convex);
    const Eigen::Vector3d centre(0, -80, 0);
    EXPECT_NEAR((line.point({10, 0}) - centre).norm(), 80, rounding);
    EXPECT_NEAR((line.point({10, 5}) - centre).norm(), 85, rounding);
}

TEST(BendLine, TellsRadiusSweepAndCurve) {
    const BendLine arc = BendLine::arc(80, 1.2, Curve::convex);
    EXPECT_NEAR(arc.radius(), 80, rounding);
    EXPECT_NEAR(arc.sweep(), 1.2, rounding);
    EXPECT_NEAR(arc.length(), 96, rounding);
    EXPECT_EQ(arc.curve(), Curve::convex);
    EXPECT_EQ(BendLine::arc(80, 1.2, Curve::concave).curve(), Curve::concave);
    EXPECT_EQ(BendLine::straight(3).curve(), Curve::straight);
    EXPECT_TRUE(std::isinf(BendLine::straight(3).radius()));
    EXPECT_EQ(BendLine::straight(3).sweep(), 0);
}

} // namespace
} // namespace flangewright::outline
