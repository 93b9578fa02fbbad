#include "solver/findings/plan_radius.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <numeric>
#include <random>
#include <vector>

namespace flangewright::findings {
namespace {

/// Points on an arc about (40, -7), with heights that must not matter.
Eigen::Matrix3Xd arc(double radius, double sweep, int n) {
    Eigen::Matrix3Xd points(3, n);
    for (int i = 0; i < n; ++i) {
        const double turn = 0.4 + sweep * i / (n - 1);
        points.col(i) << 40 + radius * std::cos(turn), -7 + radius * std::sin(turn), 0.3 * i;
    }
    return points;
}

double radius_of(const Eigen::Matrix3Xd& points) {
    std::vector<int> nodes(static_cast<std::size_t>(points.cols()));
    std::iota(nodes.begin(), nodes.end(), 0);
    return plan_radius(points, nodes);
}

TEST(PlanRadius, IsTheRadiusOfAnArc) {
    constexpr double rounding = 1e-7; // relative; a shallow arc loses digits to its sagitta
    for (const double sweep : {0.05, 0.5, std::numbers::pi, 5.0}) {
        EXPECT_NEAR(radius_of(arc(250, sweep, 21)) / 250, 1, rounding);
    }
    EXPECT_NEAR(radius_of(arc(63, 0.05, 3)) / 63, 1, rounding);
}

TEST(PlanRadius, TakesAClosedRing) {
    EXPECT_NEAR(radius_of(arc(30, 2 * std::numbers::pi, 25)) / 30, 1, 1e-9);
}

TEST(PlanRadius, IsInfiniteOnAStraightLine) {
    Eigen::Matrix3Xd line(3, 9);
    for (int i = 0; i < 9; ++i) {
        line.col(i) << 3 + 2.0 * i, 5 - 1.5 * i, 0.01 * i * i;
    }
    EXPECT_TRUE(std::isinf(radius_of(line)));
    EXPECT_TRUE(std::isinf(radius_of(line.leftCols(2))));
    EXPECT_TRUE(std::isinf(radius_of(Eigen::Matrix3Xd::Ones(3, 5))));
}

TEST(PlanRadius, AveragesScatterOut) {
    std::mt19937 random(7);
    std::normal_distribution<double> scatter(0, 0.02);
    Eigen::Matrix3Xd points = arc(200, 1.0, 400);
    for (Eigen::Index i = 0; i < points.cols(); ++i) {
        points(0, i) += scatter(random);
        points(1, i) += scatter(random);
    }
    // Sagitta 24.5 mm known to about 0.02 / sqrt(400) mm: a relative error of some 1e-4.
    EXPECT_NEAR(radius_of(points) / 200, 1, 5e-4);
}

TEST(PlanRadius, GrowsWhenTheArcOpens) {
    EXPECT_GT(radius_of(arc(251, 1.0, 11)), radius_of(arc(250, 1.004, 11)) + 0.9);
}

} // namespace
} // namespace flangewright::findings
