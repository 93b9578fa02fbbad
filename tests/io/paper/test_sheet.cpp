#include "io/paper/sheet.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <set>

namespace flangewright::paper {
namespace {

constexpr double rounding = 1e-9;

TEST(PaperSheet, FlattensAnArcToPointsOfItsCircle) {
    // A quarter of a circle of 10 about the origin, to the left.
    const Path quarter{Pen::cut, {{{10, 0}, std::tan(std::numbers::pi / 8)}, {{0, 10}, 0}}, false};
    const std::vector<Eigen::Vector2d> points = flattened(quarter, 0.01);
    ASSERT_GT(points.size(), 5U);
    for (std::size_t i = 0; i < points.size(); ++i) {
        EXPECT_NEAR(points[i].norm(), 10, rounding);
        if (i > 0) { // the middle of a chord misses the arc by no more than asked
            EXPECT_GT((0.5 * (points[i] + points[i - 1])).norm(), 10 - 0.01);
        }
    }
    EXPECT_NEAR((points.back() - Eigen::Vector2d(0, 10)).norm(), 0, rounding);
    EXPECT_NEAR(bulge_radius({10, 0}, {0, 10}, std::tan(std::numbers::pi / 8)), 10, rounding);
}

TEST(PaperSheet, TurnsToTheRightWithANegativeBulge) {
    const Path half{Pen::cut, {{{0, 0}, -1}, {{10, 0}, 0}}, false};
    double highest = 0;
    for (const Eigen::Vector2d& point : flattened(half, 0.001)) {
        highest = std::max(highest, point.y());
    }
    EXPECT_NEAR(highest, 5, 0.001); // over the chord, as it turns to the right
}

TEST(PaperSheet, ClosesAPathWithItsFirstPoint) {
    const Path triangle{Pen::cut, {{{0, 0}, 0}, {{4, 0}, 0}, {{0, 3}, 0}}, true};
    const std::vector<Eigen::Vector2d> points = flattened(triangle, 0.01);
    ASSERT_EQ(points.size(), 4U);
    EXPECT_EQ(points.front(), points.back());
}

TEST(PaperSheet, StacksDrawingsBeneathEachOtherWithoutOverlap) {
    Sheet one;
    one.add_line(Pen::cut, {0, 0}, {50, 20});
    Sheet two;
    two.add_line(Pen::net, {100, 100}, {130, 140});
    two.circles.push_back({Pen::hole, {110, 120}, 5});
    const Sheet all = stacked({one, two}, 10);
    ASSERT_EQ(all.paths.size(), 2U);
    EXPECT_EQ(all.paths[0].vertices[1].at, Eigen::Vector2d(50, 20)); // the first stays
    EXPECT_NEAR(all.paths[1].vertices[1].at.y(), -10, rounding);
    EXPECT_NEAR(all.paths[1].vertices[0].at.x(), 0, rounding);
    EXPECT_NEAR(all.extent().high.y() - all.extent().low.y(), 20 + 10 + 40, rounding);
}

TEST(PaperSheet, HasALayerOfItsOwnForEachKind) {
    std::set<std::string> layers;
    for (const Pen pen : all_pens()) {
        const std::string& layer = look_of(pen).layer;
        EXPECT_TRUE(layers.insert(layer).second) << layer;
        EXPECT_EQ(layer.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ_"), std::string::npos);
    }
}

} // namespace
} // namespace flangewright::paper
