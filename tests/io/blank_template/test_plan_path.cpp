#include "io/blank_template/plan_path.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::blank_template {
namespace {

using outline::BendLine;
using outline::Profile;

constexpr double rounding = 1e-9;

BendLine s_line() {
    return BendLine::chain({{60, 1.0 / 100}, {20, 0}, {40, -1.0 / 80}});
}

/// Distance of points of a path from the line, off what it should be.
double largest_error(const BendLine& line, const Vertices& path, const Profile& wanted) {
    double largest = 0;
    for (const Eigen::Vector2d& point : paper::flattened({paper::Pen::cut, path, false}, 0.001)) {
        const outline::LinePosition at = line.locate({point.x(), point.y(), 0});
        largest = std::max(largest, std::abs(at.distance - wanted.at(at.station)));
    }
    return largest;
}

TEST(PlanPath, RunsBesideTheLineInItsOwnLinesAndArcs) {
    const BendLine line = s_line();
    const Vertices path = beside_line(line, {0, 120}, 15);
    ASSERT_EQ(path.size(), 4U);
    EXPECT_GT(path[0].bulge, 0); // a concave line turns to the flange's side, the left
    EXPECT_EQ(path[1].bulge, 0);
    EXPECT_LT(path[2].bulge, 0);
    EXPECT_LT(largest_error(line, path, Profile({{0, 15}})), 1e-6);
    EXPECT_NEAR(paper::bulge_radius(path[0].at, path[1].at, path[0].bulge), 85, 1e-6);
}

TEST(PlanPath, FollowsADistanceThatVaries) {
    const BendLine line = s_line();
    const Profile widths({{0, 12}, {50, 15}, {120, 11}});
    EXPECT_LT(largest_error(line, beside_line(line, {0, 120}, widths), widths), 0.003);
    EXPECT_LT(
        largest_error(line, beside_line(line, {0, 120}, widths, 2), widths.raised_by(2)), 0.003
    );
}

TEST(PlanPath, RunsBackOverTheSamePoints) {
    const Vertices path = beside_line(s_line(), {0, 120}, 15);
    const Vertices back = reversed(path);
    ASSERT_EQ(back.size(), path.size());
    EXPECT_EQ(back.front().at, path.back().at);
    EXPECT_EQ(back[0].bulge, -path[2].bulge);
    EXPECT_EQ(back[2].bulge, -path[0].bulge);
    EXPECT_EQ(back[3].bulge, 0);
}

TEST(PlanPath, CutsANotchAndRaisesATabInTheEdge) {
    const BendLine line = BendLine::straight(100);
    outline::Openings openings;
    openings.notches = {{30, 4, 7}};
    openings.tabs = {{60, 80, 5}};
    const Vertices edge = free_edge(line, Profile({{0, 20}}), openings);
    double lowest = 1e9;
    double highest = 0;
    for (const Eigen::Vector2d& point : paper::flattened({paper::Pen::cut, edge, false}, 0.001)) {
        lowest = std::min(lowest, point.y());
        highest = std::max(highest, point.y());
    }
    EXPECT_NEAR(lowest, 20 - 7, 0.002);
    EXPECT_NEAR(highest, 20 + 5, rounding);
    // Begin, two corners and a round of the notch, four corners of the tab, end; stations run from
    // x = -50.
    ASSERT_EQ(edge.size(), 10U);
    EXPECT_NEAR(edge[1].at.x(), -50 + 28, rounding);
    EXPECT_EQ(edge[2].bulge, 1);
    EXPECT_NEAR(edge[2].at.y(), 20 - 7 + 2, rounding);
    EXPECT_NEAR(edge[4].at.x(), -50 + 32, rounding);
    EXPECT_NEAR(edge[5].at.x(), -50 + 60, rounding);
    EXPECT_NEAR(edge[6].at.y(), 25, rounding);
    EXPECT_NEAR(edge[8].at.x(), -50 + 80, rounding);
}

} // namespace
} // namespace flangewright::blank_template
