#include "mesh/grid/opening_sides.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::grid {
namespace {

BlankGrid strip() {
    BlankGrid blank;
    blank.line = outline::BendLine::straight(80);
    blank.web_width = 40;
    blank.bend_width = 4;
    blank.flange_width = 24;
    blank.openings.holes = {{40, -20, 10, false}, {40, -34, 6, false}};
    return blank;
}

TEST(OpeningSides, RingsGrowOffTheRim) {
    const BlankGrid blank = strip();
    const std::vector<Side> rings = rings_of(blank, blank.openings.holes[0], 20);
    ASSERT_GE(rings.size(), 3U);
    const Eigen::Vector3d centre = blank.line.point({40, -20});
    double before = 0;
    double width_before = 0;
    for (const Side& ring : rings) {
        EXPECT_EQ(static_cast<int>(ring.size()), blank.n_round_hole);
        const double radius = (ring.front().position - centre).norm();
        EXPECT_NEAR((ring[7].position - centre).norm(), radius, 1e-12);
        if (before > 0) {
            EXPECT_GT(radius - before, width_before);
            width_before = radius - before;
        }
        before = radius;
    }
    EXPECT_NEAR((rings.front().front().position - centre).norm(), 5, 1e-12);
    EXPECT_NEAR(before, 5 + 0.75 * 5, 1e-9);
}

TEST(OpeningSides, LittleMetalHasFewRingsThatFillHalfOfIt) {
    const BlankGrid blank = strip();
    const std::vector<Side> rings = rings_of(blank, blank.openings.holes[0], 2.4);
    const Eigen::Vector3d centre = blank.line.point({40, -20});
    EXPECT_NEAR((rings.back().front().position - centre).norm(), 5 + 1.2, 1e-9);
    EXPECT_EQ(rings_of(blank, blank.openings.holes[0], 0.3).size(), 1U);
}

TEST(OpeningSides, MetalIsTheWayToTheNearestSideOrHalfToTheNextHole) {
    const BlankGrid blank = strip();
    const auto at = [&](double station, double distance) {
        return SideNode{blank.line.point({station, distance}), new_node};
    };
    const Side border{at(20, -40), at(60, -40), at(60, -12), at(20, -12)};
    Window window{{20, 60}, {-40, -12}, 2, {0}, {}};
    EXPECT_NEAR(metal_round(blank, window, 0, border), 3, 1e-12); // to the border above
    window.holes = {0, 1};
    EXPECT_NEAR(metal_round(blank, window, 1, border), 3, 1e-12); // half of 6, and 3 to the edge
}

TEST(OpeningSides, NotchedEdgeRunsFromBorderToBorder) {
    BlankGrid blank = strip();
    blank.openings = {};
    const SheetMesh mapped = *mesh_blank(blank);
    blank.openings.notches = {{40, 6, 9}};
    const int last = static_cast<int>(mapped.station_lines.size()) - 1;
    const int rows = static_cast<int>(mapped.station_lines.front().size()) - 1;
    const Window window{{0, 80}, {10, 24}, 2, {}, {0}};
    const WindowPlace place{0, last, rows - 6, rows};
    const Side edge = notched_edge(mapped, blank, window, place);
    ASSERT_FALSE(edge.empty());
    EXPECT_EQ(edge.size() % 2, 1U) << "an even number of pieces";
    EXPECT_EQ(edge.front().number, mapped.free_edge.front());
    EXPECT_EQ(edge.back().number, mapped.free_edge.back());
    double lowest = 99;
    for (const SideNode& node : edge) {
        lowest = std::min(lowest, blank.line.locate(node.position).distance);
    }
    EXPECT_NEAR(lowest, 24 - 9, 1e-9);
    EXPECT_EQ(notch_ends(blank, window, edge).front().place, edge.size() - 1);
    EXPECT_TRUE(notched_edge(mapped, blank, {{0, 80}, {10, 24}, 2, {}, {}}, place).empty());
}

} // namespace
} // namespace flangewright::grid
