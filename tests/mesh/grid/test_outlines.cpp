#include "mesh/grid/blank_mesher.hpp"
#include "mesh/grid/outlines.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

namespace flangewright::grid {
namespace {

BlankGrid strip() {
    BlankGrid blank;
    blank.line = outline::BendLine::straight(80);
    blank.web_width = 40;
    blank.bend_width = 4;
    blank.flange_width = 24;
    return blank;
}

TEST(Outlines, PlainEdgeIsOneRun) {
    const SheetMesh mesh = *mesh_blank(strip());
    EXPECT_THAT(edge_runs(mesh), testing::ElementsAre(mesh.free_edge));
    EXPECT_EQ(outlines(mesh).size(), 4U);
}

TEST(Outlines, NotchMakesTwoRunsAndAHoleARing) {
    BlankGrid blank = strip();
    blank.openings.notches = {{40, 5, 8}};
    blank.openings.holes = {{40, -20, 10, false}};
    const SheetMesh mesh = *mesh_blank(blank);
    const std::vector<std::vector<int>> runs = edge_runs(mesh);
    ASSERT_EQ(runs.size(), 2U);
    EXPECT_EQ(runs[0].size() + runs[1].size(), mesh.free_edge.size());
    const std::vector<int> ring = rim_line(mesh.rims[0]);
    EXPECT_EQ(ring.front(), ring.back());
}

/// Each border side is on one outline, once.
TEST(Outlines, AreTheWholeBorder) {
    BlankGrid blank = strip();
    blank.openings.notches = {{40, 5, 8}};
    blank.openings.holes = {{40, -20, 10, false}, {20, 14, 5, false}};
    blank.openings.tabs = {{55, 70, 5}};
    const SheetMesh mesh = *mesh_blank(blank);
    std::set<std::pair<int, int>> border;
    for (const std::array<int, 4>& quad : mesh.quads) {
        for (std::size_t k = 0; k < 4; ++k) {
            const std::pair<int, int> side = std::minmax(quad[k], quad[(k + 1) % 4]);
            if (!border.insert(side).second) {
                border.erase(side);
            }
        }
    }
    for (const std::vector<int>& line : outlines(mesh)) {
        for (std::size_t i = 0; i + 1 < line.size(); ++i) {
            EXPECT_EQ(border.erase(std::minmax(line[i], line[i + 1])), 1U);
        }
    }
    EXPECT_TRUE(border.empty());
}

} // namespace
} // namespace flangewright::grid
