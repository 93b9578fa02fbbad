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

// Concave into convex through a line, as a frame's edge often goes.
BendLine s_curve() {
    return BendLine::chain({{70, 1.0 / 80}, {30, 0}, {90, -1.0 / 60}});
}

std::vector<BendLine> lines() {
    return {
        s_curve(),
        BendLine::chain({{40, -1.0 / 120}, {60, 1.0 / 50}, {25, 1.0 / 200}, {35, 0}}),
        BendLine::chain({{48, 1.0 / 80}, {48, 1.0 / 80}}),
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

TEST(BendLine, OutwardTurnsWithTheCurvature) {
    const double step = 1e-4;
    const double truncation = 1e-7;
    for (const BendLine& line : lines()) {
        for (const double share : {0.05, 0.3, 0.52, 0.9}) {
            const double station = share * line.length();
            const LineFrame at = line.frame(station);
            const Eigen::Vector3d change =
                (line.frame(station + step).outward - line.frame(station - step).outward)
                / (2 * step);
            const Eigen::Vector3d expected = -line.curvature(station) * at.tangent;
            EXPECT_NEAR((change - expected).norm(), 0, truncation);
        }
    }
}

TEST(BendLine, FrameGoesOnWithoutAStepWherePiecesMeet) {
    const double gap = 1e-9;
    const double moved = 2 * gap;
    for (const BendLine& line : lines()) {
        double joint = 0;
        for (const Piece& piece : line.pieces()) {
            joint += piece.length;
            const LineFrame before = line.frame(joint - gap);
            const LineFrame after = line.frame(joint + gap);
            EXPECT_NEAR((after.point - before.point).norm(), moved, rounding);
            EXPECT_NEAR((after.tangent - before.tangent).norm(), 0, moved);
        }
    }
}

TEST(BendLine, LocateIsTheInverseOfPointAllAlongAnSCurveAndBeyondItsEnds) {
    const BendLine line = s_curve();
    for (double station = -15; station < line.length() + 15; station += 0.7) {
        for (const double distance : {-40.0, -25.0, -0.5, 0.0, 12.0, 35.0}) {
            const LinePosition found = line.locate(line.point({station, distance}));
            EXPECT_NEAR(found.station, station, rounding) << distance;
            EXPECT_NEAR(found.distance, distance, rounding) << station;
        }
    }
    double joint = 0;
    for (const Piece& piece : line.pieces()) {
        const LinePosition found = line.locate(line.point({joint, 20}));
        EXPECT_NEAR(found.station, joint, rounding);
        EXPECT_NEAR(found.distance, 20, rounding);
        joint += piece.length;
    }
}

// Both legs of a U are near in plan, and the straight ones go on past it.
TEST(BendLine, LocateStaysOnItsOwnLegOfAU) {
    const BendLine line = BendLine::chain({{60, 0}, {std::numbers::pi * 30, 1.0 / 30}, {90, 0}});
    for (const double station : {-10.0, 0.0, 20.0, 59.0, 110.0, 160.0, 220.0, 244.0, 250.0}) {
        for (const double distance : {-40.0, 0.0, 25.0}) {
            const LinePosition found = line.locate(line.point({station, distance}));
            EXPECT_NEAR(found.station, station, rounding) << distance;
            EXPECT_NEAR(found.distance, distance, rounding) << station;
        }
    }
}

TEST(BendLine, TwoHalfArcsAreTheArc) {
    const BendLine arc = BendLine::arc(80, 1.2, Curve::convex);
    const BendLine halves = BendLine::chain({{48, -1.0 / 80}, {48, -1.0 / 80}});
    EXPECT_EQ(halves.curve(), Curve::convex);
    EXPECT_NEAR(halves.sweep(), arc.sweep(), rounding);
    for (const double station : {-3.0, 0.0, 20.0, 48.0, 90.0, 99.0}) {
        const Eigen::Vector3d place = arc.point({station, 7});
        EXPECT_NEAR((halves.point({station, 7}) - place).norm(), 0, rounding);
        EXPECT_NEAR(halves.locate(place).station, station, rounding);
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

TEST(BendLine, TellsTheRadiiOfAChain) {
    const BendLine line = s_curve();
    EXPECT_EQ(line.curve(), Curve::mixed);
    EXPECT_NEAR(line.length(), 190, rounding);
    EXPECT_NEAR(line.concave_radius(), 80, rounding);
    EXPECT_NEAR(line.convex_radius(), 60, rounding);
    EXPECT_NEAR(line.radius(), 60, rounding);
    EXPECT_NEAR(line.tightest_curvature(), 1.0 / 80, rounding); // the edge stretches there
    EXPECT_NEAR(line.sweep(), 70.0 / 80 + 1.5, rounding);
    EXPECT_NEAR(line.largest_turn(), 1.5, rounding); // the convex piece alone
    EXPECT_NEAR(line.curvature(10), 1.0 / 80, rounding);
    EXPECT_EQ(line.curvature(85), 0);
    EXPECT_NEAR(line.curvature(189), -1.0 / 60, rounding);
    EXPECT_NEAR(line.curvature(250), -1.0 / 60, rounding);
    EXPECT_EQ(BendLine::chain({{10, 0}, {5, 0}}).curve(), Curve::straight);
    EXPECT_EQ(BendLine::chain({{10, 0}, {5, -0.01}}).curve(), Curve::mixed);
    EXPECT_NEAR(BendLine::chain({{10, 0}, {5, -0.01}}).tightest_curvature(), -0.01, rounding);
    EXPECT_TRUE(std::isinf(BendLine::chain({{10, 0}, {5, -0.01}}).concave_radius()));
}

} // namespace
} // namespace flangewright::outline
