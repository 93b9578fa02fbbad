#include "mesh/outline/curve_through.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright::outline {
namespace {

using Eigen::Vector2d;

constexpr double degree = std::numbers::pi / 180;
constexpr double rounding = 1e-9;

std::vector<Vector2d> on_circle(double radius, double step, int n, double side = 1) {
    std::vector<Vector2d> points;
    for (int i = 0; i < n; ++i) {
        // Starts somewhere, at a slant; unevenly spaced.
        const double angle = side * (0.7 + step * (i + 0.2 * std::sin(2.0 * i)));
        points.emplace_back(30 + radius * std::cos(angle), -12 + radius * std::sin(angle));
    }
    return points;
}

/// The line's own frame laid on the drawing: its first point and direction there.
class OnDrawing {
public:
    OnDrawing(const BendLine& line, const Vector2d& start, double direction)
        : line_(line), start_(start) {
        const LineFrame frame = line.frame(0);
        turn_ = direction - std::atan2(frame.tangent.y(), frame.tangent.x());
    }
    [[nodiscard]] Eigen::Vector3d to_line(const Vector2d& point) const {
        const Vector2d away = Eigen::Rotation2Dd(-turn_) * (point - start_);
        return line_.frame(0).point + Eigen::Vector3d(away.x(), away.y(), 0);
    }

private:
    BendLine line_;
    Vector2d start_;
    double turn_ = 0;
};

TEST(CurveThrough, PointsOfACircleHasItsRadius) {
    for (const double side : {1.0, -1.0}) {
        for (const double step : {4.0, 10.0, 15.0}) {
            const auto points = on_circle(180, step * degree, 9, side);
            const CurveThrough curve = curve_through(points);
            double length = 0;
            for (const Piece& piece : curve.pieces) {
                EXPECT_NEAR(piece.curvature * 180 * side, 1, 1e-3) << step; // 0.1 per cent
                length += piece.length;
            }
            const double turned = side
                * std::remainder(std::atan2(points.back().y() + 12, points.back().x() - 30)
                                     - std::atan2(points.front().y() + 12, points.front().x() - 30),
                                 2 * std::numbers::pi);
            EXPECT_NEAR(length, 180 * turned, 1e-3 * length);
        }
    }
}

TEST(CurveThrough, PassesEveryPointOfAWave) {
    std::vector<Vector2d> points;
    for (int i = 0; i <= 20; ++i) {
        points.emplace_back(10.0 * i, 15 * std::sin(0.3 * i));
    }
    const CurveThrough curve = curve_through(points);
    const BendLine line = BendLine::chain(curve.pieces);
    EXPECT_EQ(line.curve(), Curve::mixed);
    double direction = std::atan2(15 * 0.03, 1);
    // The direction of the first piece is not handed out; the second point tells it.
    for (int i = 0; i < 5; ++i) {
        const Eigen::Vector3d at = OnDrawing(line, points[0], direction).to_line(points.back());
        const Eigen::Vector3d end = line.frame(line.length()).point;
        const Eigen::Vector3d start = line.frame(0).point;
        direction += std::atan2((at - start).y(), (at - start).x())
            - std::atan2((end - start).y(), (end - start).x());
    }
    const OnDrawing drawing(line, points[0], direction);
    double before = -1;
    for (const Vector2d& point : points) {
        const LinePosition at = line.locate(drawing.to_line(point));
        EXPECT_NEAR(at.distance, 0, 1e-6);
        EXPECT_GT(at.station, before);
        before = at.station;
    }
    // The sine itself is nowhere far from a spline through it.
    for (double x = 0; x < 200; x += 1.7) {
        const LinePosition at = line.locate(drawing.to_line({x, 15 * std::sin(0.03 * x)}));
        EXPECT_NEAR(at.distance, 0, 0.05) << x;
    }
}

TEST(CurveThrough, CurvatureDoesNotJumpAboutOnASmoothCurve) {
    constexpr double end_error = 1.02; // the end follows a circle, which an ellipse is not
    std::vector<Vector2d> points; // an ellipse, 200 by 120
    for (int i = 0; i <= 18; ++i) {
        points.emplace_back(200 * std::cos(5 * degree * i), 120 * std::sin(5 * degree * i));
    }
    double before = 0;
    for (const Piece& piece : curve_through(points).pieces) {
        EXPECT_GT(piece.curvature, 120.0 / (200 * 200) * 0.98);
        EXPECT_LT(piece.curvature, 200.0 / (120 * 120) * 1.02);
        if (before > 0) {
            EXPECT_LT(piece.curvature, before * end_error); // falls from the long axis on
        }
        before = piece.curvature;
    }
}

// Two arcs to a span are not enough where the curvature changes much between two points.
TEST(CurveThrough, TakesMoreArcsWhereTwoWouldLeaveTheSpline) {
    const CurveThrough curve =
        curve_through(std::vector<Vector2d>{{0, 0}, {60, 40}, {200, 60}, {340, 60}});
    EXPECT_GT(curve.pieces.size(), 6U);
    EXPECT_EQ(curve.from_point.size(), curve.pieces.size());
    const CurveThrough circle = curve_through(on_circle(180, 10 * degree, 4));
    EXPECT_EQ(circle.pieces.size(), 6U);
}

TEST(CurveThrough, TwoPointsGiveALine) {
    const CurveThrough curve = curve_through(std::vector<Vector2d>{{1, 1}, {4, 5}});
    ASSERT_EQ(curve.pieces.size(), 1U);
    EXPECT_NEAR(curve.pieces.front().length, 5, rounding);
    EXPECT_EQ(curve.pieces.front().curvature, 0);
}

TEST(CurveThrough, PointsInARowGiveAStraightLine) {
    const CurveThrough curve =
        curve_through(std::vector<Vector2d>{{0, 0}, {10, 5}, {14, 7}, {40, 20}});
    EXPECT_EQ(BendLine::chain(curve.pieces).curve(), Curve::straight);
    EXPECT_NEAR(BendLine::chain(curve.pieces).length(), std::hypot(40, 20), rounding);
}

TEST(CurveThrough, KnowsBetweenWhichPointsEachPieceLies) {
    const auto points = on_circle(100, 10 * degree, 6);
    const CurveThrough curve = curve_through(points);
    ASSERT_EQ(curve.from_point.size(), curve.pieces.size());
    EXPECT_EQ(curve.from_point.front(), 0U);
    EXPECT_EQ(curve.from_point.back(), 4U);
    EXPECT_TRUE(std::ranges::is_sorted(curve.from_point));
}

TEST(FindKink, SeesACornerBetweenStraights) {
    const std::vector<Vector2d> points{{0, 0}, {20, 0}, {40, 0}, {60, 10}, {80, 20}};
    const std::optional<Kink> kink = find_kink(points);
    ASSERT_TRUE(kink.has_value());
    EXPECT_EQ(kink->point, 2U);
    EXPECT_NEAR(kink->turn, std::atan2(10, 20), rounding);
}

TEST(FindKink, PassesAWidelyPointedArcAndItsRunOut) {
    std::vector<Vector2d> points{{-60, 0}, {-40, 0}, {-20, 0}};
    for (int i = 0; i < 6; ++i) {
        points.emplace_back(60 * std::sin(25 * degree * i), 60 * (1 - std::cos(25 * degree * i)));
    }
    EXPECT_FALSE(find_kink(points).has_value());
    EXPECT_FALSE(find_kink(on_circle(50, 30 * degree, 8, -1)).has_value());
}

TEST(FindKink, SeesATurnBack) {
    const std::vector<Vector2d> points{{0, 0}, {20, 0}, {5, 3}, {30, 6}};
    ASSERT_TRUE(find_kink(points).has_value());
    EXPECT_EQ(find_kink(points)->point, 1U);
    EXPECT_TRUE(find_kink(std::vector<Vector2d>{{0, 0}, {20, 0}, {5, 3}}).has_value());
}

} // namespace
} // namespace flangewright::outline
