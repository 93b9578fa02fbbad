#include "solver/findings/resting_plane.hpp"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace flangewright::findings {
namespace {

using Eigen::Matrix3Xd;
using Eigen::Vector3d;

const TiltDirections both{Vector3d::UnitX(), Vector3d::UnitY()};

double least_gap(const Matrix3Xd& points, const RestingPlane& plane) {
    return (plane.normal.transpose() * (points.colwise() - plane.point)).minCoeff();
}

double largest_gap(const Matrix3Xd& points, const RestingPlane& plane) {
    return (plane.normal.transpose() * (points.colwise() - plane.point)).maxCoeff();
}

/// Height of the plane over x = y = 0.
double height_over_origin(const RestingPlane& plane) {
    return plane.normal.dot(plane.point) / plane.normal.z();
}

/// The highest plane below all points over the origin, by trying every three of them.
double height_by_trying_all(const Matrix3Xd& points) {
    const Eigen::Index n = points.cols();
    double best = -1e300;
    for (Eigen::Index i = 0; i < n; ++i) {
        for (Eigen::Index j = i + 1; j < n; ++j) {
            for (Eigen::Index k = j + 1; k < n; ++k) {
                Eigen::Matrix3d rows;
                rows << 1, points(0, i), points(1, i), 1, points(0, j), points(1, j), 1,
                    points(0, k), points(1, k);
                if (std::abs(rows.determinant()) < 1e-9) {
                    continue;
                }
                const Vector3d plane =
                    rows.inverse() * Vector3d(points(2, i), points(2, j), points(2, k));
                const double lowest =
                    (points.row(2).array() - plane(0) - plane(1) * points.row(0).array()
                     - plane(2) * points.row(1).array())
                        .minCoeff();
                if (lowest > -1e-9) {
                    best = std::max(best, plane(0));
                }
            }
        }
    }
    return best;
}

TEST(RestingPlane, AgreesWithTryingAllTriples) {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> spread(-1, 1);
    for (int trial = 0; trial < 40; ++trial) {
        Matrix3Xd points(3, 24);
        for (Eigen::Index i = 0; i < points.cols(); ++i) {
            points.col(i) << 30 * spread(random), 20 * spread(random), 0.05 * spread(random);
        }
        points.col(0) << 30, 20, 0.01;
        points.col(1) << -30, 20, -0.02;
        points.col(2) << 0, -20, 0.03;
        const RestingPlane plane = find_resting_plane(points, Vector3d::Zero(), both);
        EXPECT_GT(least_gap(points, plane), -1e-10);
        EXPECT_EQ(plane.supports.size(), 3U);
        for (const int at : plane.supports) {
            EXPECT_NEAR(plane.normal.dot(points.col(at) - plane.point), 0, 1e-10);
        }
        // Tilts of 0.01 change the height along the normal by 1e-4 of itself, never the support.
        EXPECT_NEAR(height_over_origin(plane), height_by_trying_all(points), 1e-6);
    }
}

/// z = a (x/40)^2 - b (y/15)^2 over 80 x 30 mm.
Matrix3Xd saddle(double a, double b, double weight_shift) {
    Matrix3Xd points(3, 9 * 7);
    Eigen::Index k = 0;
    for (int i = -4; i <= 4; ++i) {
        for (int j = -3; j <= 3; ++j) {
            const double x = 10.0 * i;
            const double y = 5.0 * j;
            points.col(k++) << x + weight_shift, y, a * x * x / 1600 - b * y * y / 225;
        }
    }
    return points;
}

// The saddle touches with the middles of its two long edges, low at x = 0; with the weight 3 mm
// off that line it tips until the next node (10 mm on) of one of those edges touches as well.
// Worked out by hand: the plane holds (0, -15), (0, 15) and (10, +-15), so it rises by a/16 over 10
// mm.
TEST(RestingPlane, FindsTheSupportOfASaddle) {
    const double a = 0.8;
    const double b = 0.3;
    const Matrix3Xd points = saddle(a, b, -3);
    const RestingPlane plane = find_resting_plane(points, Vector3d::Zero(), both);
    ASSERT_EQ(plane.supports.size(), 3U);
    for (const int at : plane.supports) {
        const double x = points(0, at) + 3;
        EXPECT_TRUE(std::abs(x) < 1e-9 || std::abs(x - 10) < 1e-9) << x;
        EXPECT_NEAR(std::abs(points(1, at)), 15, 1e-9);
    }
    EXPECT_NEAR(-plane.normal.x() / plane.normal.z(), a / 160, 1e-9);
    EXPECT_NEAR(plane.normal.y(), 0, 1e-9);
    // The far end (x = -40) stands highest: a + b over the edge's line, plus four times a/16.
    EXPECT_NEAR(largest_gap(points, plane), a + b + 4 * a / 16, 1e-3); // slant of the face
}

TEST(RestingPlane, GivesOneOfTheTwoRestsOfAPartThatRocks) {
    const Matrix3Xd points = saddle(0.8, 0.3, 0);
    const RestingPlane plane = find_resting_plane(points, Vector3d::Zero(), both);
    EXPECT_GT(least_gap(points, plane), -1e-10);
    EXPECT_NEAR(height_over_origin(plane), -0.3, 1e-9);
    EXPECT_NEAR(largest_gap(points, plane), 0.8 + 0.3 + 4 * 0.8 / 16, 1e-3);
}

TEST(RestingPlane, TurnsWithThePart) {
    const Matrix3Xd points = saddle(0.8, 0.3, -3);
    const RestingPlane plane = find_resting_plane(points, Vector3d::Zero(), both);
    const Eigen::Matrix3d turn = (Eigen::AngleAxisd(0.15, Vector3d(1, 2, 0).normalized())
                                  * Eigen::AngleAxisd(0.4, Vector3d::UnitZ()))
                                     .toRotationMatrix();
    const Vector3d shift(3, -8, 20);
    const Matrix3Xd moved = (turn * points).colwise() + shift;
    const RestingPlane turned = find_resting_plane(moved, shift, both);
    EXPECT_NEAR((turned.normal - turn * plane.normal).norm(), 0, 1e-10);
    EXPECT_NEAR(largest_gap(moved, turned), largest_gap(points, plane), 1e-9);
}

// The weight stands 1 mm high, 0.3 mm to one side of the line the saddle rocks about. Steeply
// turned, the vertical through it meets the face on the other side of that line; the part must not
// tip over.
TEST(RestingPlane, LooksAlongItsOwnNormalNotAlongTheVertical) {
    const Vector3d weight(0, 0, 1);
    for (const double side : {-0.3, 0.3}) {
        const Matrix3Xd points = saddle(0.8, 0.3, side);
        for (const double angle : {-0.6, 0.6}) {
            const Eigen::Matrix3d turn =
                Eigen::AngleAxisd(angle, Vector3d::UnitY()).toRotationMatrix();
            const RestingPlane plane = find_resting_plane(turn * points, turn * weight, both);
            const Vector3d back = turn.transpose() * plane.normal;
            EXPECT_NEAR(-back.x() / back.z(), side < 0 ? 0.8 / 160 : -0.8 / 160, 1e-9);
        }
    }
}

TEST(RestingPlane, KeepsLevelWithoutTilts) {
    const Matrix3Xd points = saddle(0.8, 0.3, -3);
    const RestingPlane plane = find_resting_plane(points, Vector3d::Zero(), {});
    EXPECT_EQ(plane.normal, Vector3d::UnitZ());
    EXPECT_NEAR(plane.point.z(), -0.3, 1e-12);
    EXPECT_EQ(plane.supports.size(), 1U);
}

TEST(RestingPlane, TiltsOnlyAsItMay) {
    // A slanted plate, 0.02 along x and -0.03 along y.
    Matrix3Xd plate = saddle(0, 0, 0);
    plate.row(2) = 0.02 * plate.row(0) - 0.03 * plate.row(1);
    const RestingPlane along_y = find_resting_plane(plate, Vector3d::Zero(), {Vector3d::UnitY()});
    EXPECT_NEAR(along_y.normal.x(), 0, 1e-12);
    EXPECT_NEAR(-along_y.normal.y() / along_y.normal.z(), -0.03, 1e-9);
    // Over x = -40 the plate stands lowest: 0.8 below its middle.
    EXPECT_NEAR(height_over_origin(along_y), -0.8, 1e-9);
    const RestingPlane freely = find_resting_plane(plate, Vector3d::Zero(), both);
    EXPECT_NEAR(largest_gap(plate, freely), 0, 1e-10);
}

TEST(RestingPlane, StaysBelowAllPointsWhateverTheyAre) {
    Matrix3Xd line(3, 5);
    for (int i = 0; i < 5; ++i) {
        line.col(i) << i, 0, 0.1 * i * i;
    }
    for (const Matrix3Xd& points : {line, Matrix3Xd(Matrix3Xd::Zero(3, 4))}) {
        const RestingPlane plane = find_resting_plane(points, Vector3d(2, 0, 1), both);
        EXPECT_GT(least_gap(points, plane), -1e-6);
        EXPECT_TRUE(plane.normal.allFinite() && plane.point.allFinite());
    }
}

} // namespace
} // namespace flangewright::findings
