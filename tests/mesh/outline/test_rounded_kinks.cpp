#include "mesh/outline/rounded_kinks.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

namespace flangewright::outline {
namespace {

using Eigen::Vector2d;

constexpr double degree = std::numbers::pi / 180;
constexpr double rounding = 1e-8; // mm, of some ten sines and cosines on lengths of 100 mm

/// Someone who walks along a line from the origin toward +x.
struct Walker {
    Vector2d point = Vector2d::Zero();
    double direction = 0;

    void go(const Piece& piece) {
        const double half = 0.5 * piece.curvature * piece.length;
        const double chord = piece.length * (half == 0 ? 1 : std::sin(half) / half);
        direction += half;
        point += chord * Vector2d(std::cos(direction), std::sin(direction));
        direction += half;
    }
};

Walker after_kinked(const std::vector<SmoothRun>& runs) {
    Walker walker;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        for (const Piece& piece : runs[i].pieces) {
            walker.go(piece);
        }
        walker.direction += i + 1 < runs.size() ? runs[i].turn_after : 0;
    }
    return walker;
}

Walker after_rounded(const std::vector<RoundedPiece>& line) {
    Walker walker;
    for (const RoundedPiece& each : line) {
        walker.go(each.piece);
    }
    return walker;
}

/// Rounding moves no end of the line and no direction there.
void expect_same_end(const std::vector<SmoothRun>& runs, double radius) {
    const auto line = round_kinks(runs, radius);
    ASSERT_TRUE(line.has_value());
    const Walker was = after_kinked(runs);
    const Walker is = after_rounded(*line);
    EXPECT_NEAR(is.point.x(), was.point.x(), rounding);
    EXPECT_NEAR(is.point.y(), was.point.y(), rounding);
    EXPECT_NEAR(std::remainder(is.direction - was.direction, 2 * std::numbers::pi), 0, rounding);
    for (const RoundedPiece& each : *line) {
        EXPECT_GT(each.piece.length, 0);
        if (!each.source) {
            EXPECT_NEAR(
                each.piece.curvature * radius, runs[each.run].turn_after > 0 ? 1 : -1, rounding
            );
        }
    }
}

TEST(RoundedKinks, ArcBetweenTwoLinesIsThatOfGeometry) {
    constexpr double radius = 12;
    for (const double turn : {-100 * degree, -26.6 * degree, 0.3 * degree, 60 * degree}) {
        const std::vector<SmoothRun> runs{{{{50, 0}}, turn}, {{{70, 0}}}};
        const auto line = round_kinks(runs, radius);
        ASSERT_TRUE(line.has_value());
        ASSERT_EQ(line->size(), 3U);
        const double taken = radius * std::tan(0.5 * std::abs(turn));
        EXPECT_NEAR(tangent_length(turn, radius), taken, rounding);
        EXPECT_NEAR((*line)[0].piece.length, 50 - taken, rounding);
        EXPECT_NEAR((*line)[1].piece.length, radius * std::abs(turn), rounding);
        EXPECT_NEAR((*line)[1].piece.curvature, std::copysign(1 / radius, turn), rounding);
        EXPECT_NEAR((*line)[2].piece.length, 70 - taken, rounding);
        EXPECT_EQ((*line)[0].source, 0U);
        EXPECT_FALSE((*line)[1].source.has_value());
        EXPECT_EQ((*line)[2].run, 1U);
        expect_same_end(runs, radius);
    }
}

TEST(RoundedKinks, ArcOntoACircleHasItsCentreByPythagoras) {
    // Line along x ends at the circle of radius 50 about (50, 0); the way then turns left up the
    // circle, clockwise. The centre of an arc of radius 8 lies at height 8, 58 from (50, 0).
    const std::vector<SmoothRun> runs{{{{40, 0}}, 90 * degree}, {{{60, -1.0 / 50}}}};
    const auto line = round_kinks(runs, 8);
    ASSERT_TRUE(line.has_value());
    ASSERT_EQ(line->size(), 3U);
    const double from_centre = std::sqrt(58.0 * 58 - 8 * 8);
    EXPECT_NEAR((*line)[0].piece.length, 40 - (from_centre - 50), rounding);
    const double up = std::asin(8.0 / 58); // angle of the touching point, seen from (50, 0)
    EXPECT_NEAR((*line)[1].piece.length, 8 * (90 * degree - up), rounding);
    EXPECT_NEAR((*line)[2].piece.length, 60 - 50 * up, rounding);
    expect_same_end(runs, 8);
}

TEST(RoundedKinks, LeavesTheRestOfLinesAndArcsWhereItWas) {
    for (const double before : {-1.0 / 60, 0.0, 1.0 / 90}) {
        for (const double after : {-1.0 / 75, 0.0, 1.0 / 40}) {
            for (const double turn : {-70 * degree, -15 * degree, 35 * degree, 80 * degree}) {
                SCOPED_TRACE(testing::Message() << before << " " << after << " " << turn);
                expect_same_end({{{{60, before}}, turn}, {{{60, after}}}}, 9);
            }
        }
    }
}

// A curve beside the kink that turns the same way more tightly than the arc vanishes whole.
TEST(RoundedKinks, SwallowsTighterCurves) {
    for (const double side : {1.0, -1.0}) {
        const Piece tight{5, side / 6};
        const std::vector<SmoothRun> runs{
            {{{60, 0}, tight}, side * 35 * degree}, {{{60, 0}, {20, 0}}}};
        expect_same_end(runs, 9);
        const auto line = round_kinks(runs, 9);
        ASSERT_TRUE(line.has_value());
        ASSERT_EQ(line->size(), 4U);
        EXPECT_NEAR((*line)[1].piece.length, 9 * (35 * degree + 5.0 / 6), rounding);
    }
}

// The arc reaches past the pieces next to the kink, which vanish.
TEST(RoundedKinks, TakesWholePiecesWhereTheyAreShort) {
    const std::vector<SmoothRun> runs{
        {{{40, 1.0 / 100}, {3, 0}, {2, -1.0 / 30}}, 60 * degree},
        {{{1.5, 1.0 / 50}, {2, 0}, {50, -1.0 / 80}}}};
    const auto line = round_kinks(runs, 20);
    ASSERT_TRUE(line.has_value());
    EXPECT_EQ(line->size(), 3U);
    EXPECT_EQ(line->front().source, 0U);
    EXPECT_EQ(line->back().source, 2U);
    expect_same_end(runs, 20);
}

// Up from the corner, round and back over the first line at a slant: an arc fits there, too.
TEST(RoundedKinks, OfTwoArcsThatFitTheNearerCounts) {
    const SmoothRun first{{{60, 0}}, 90 * degree};
    const Piece round{5 * 80 * degree, 1.0 / 5};
    const auto near = round_kinks({first, {{{10, 0}, round, {60, 0}}}}, 8);
    ASSERT_TRUE(near.has_value());
    EXPECT_NEAR(near->front().piece.length, 52, rounding);
    EXPECT_EQ(near->size(), 5U);
    // With less of the way up the nearer one has no room, and the farther is taken.
    const auto far = round_kinks({first, {{{7, 0}, round, {60, 0}}}}, 8);
    ASSERT_TRUE(far.has_value());
    EXPECT_LT(far->front().piece.length, 50);
    EXPECT_EQ(far->size(), 3U);
    expect_same_end({first, {{{7, 0}, round, {60, 0}}}}, 8);
}

TEST(RoundedKinks, SeveralShareTheLineBetweenThem) {
    const std::vector<SmoothRun> runs{
        {{{30, 0}}, 90 * degree}, {{{20, 0}}, 90 * degree}, {{{30, 0}}, -45 * degree}, {{{40, 0}}}};
    expect_same_end(runs, 9);
    EXPECT_EQ(round_kinks(runs, 9)->size(), 7U);
    // Two right angles take all of what lies between them: nothing of it is left.
    const auto half_circle = round_kinks(runs, 10);
    ASSERT_TRUE(half_circle.has_value());
    EXPECT_EQ(half_circle->size(), 6U);
    const auto too_large = round_kinks(runs, 10.01);
    ASSERT_FALSE(too_large.has_value());
    EXPECT_EQ(too_large.error().kink, 1U);
    EXPECT_NEAR(too_large.error().free_before, 9.99, rounding);
    EXPECT_NEAR(too_large.error().free_after, 30, rounding);
}

TEST(RoundedKinks, NamesTheKinkWithoutRoom) {
    const std::vector<SmoothRun> runs{{{{50, 0}}, 60 * degree}, {{{10, 0}}}};
    const double largest = 10 / std::tan(30 * degree);
    EXPECT_TRUE(round_kinks(runs, largest - 1e-6).has_value());
    const auto line = round_kinks(runs, largest + 1e-6);
    ASSERT_FALSE(line.has_value());
    EXPECT_EQ(line.error().kink, 0U);
    EXPECT_EQ(line.error().free_before, 50);
    EXPECT_EQ(line.error().free_after, 10);
    // A line that comes straight back can't be rounded.
    EXPECT_FALSE(round_kinks({{{{50, 0}}, std::numbers::pi}, {{{50, 0}}}}, 2).has_value());
}

TEST(RoundedKinks, ALineWithoutKinksStaysAsItIs) {
    const auto line = round_kinks({{{{50, 0}, {20, 1.0 / 30}}}}, 0);
    ASSERT_TRUE(line.has_value());
    ASSERT_EQ(line->size(), 2U);
    EXPECT_EQ((*line)[1].piece.length, 20);
    EXPECT_EQ((*line)[1].piece.curvature, 1.0 / 30);
    EXPECT_EQ((*line)[1].source, 1U);
}

} // namespace
} // namespace flangewright::outline
