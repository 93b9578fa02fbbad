// A blank whose flange is not equally wide all along.
#include "mesh/grid/blank_mesher.hpp"
#include "mesh/grid/grading.hpp"
#include "mesh/grid/stations.hpp"
#include "mesh/grid/trimmed_mesh.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace flangewright::grid {
namespace {

constexpr double rounding = 1e-12;
const outline::Profile taper({{0, 12.5}, {11, 12.5}, {30, 9}});

BlankGrid tapered(double cut) {
    BlankGrid blank;
    blank.line = outline::BendLine::arc(60, 0.5, outline::Curve::concave);
    blank.web_width = 20;
    blank.bend_width = 4;
    blank.flange_width = 12.5;
    blank.flange_widths = taper;
    blank.cut_width = cut;
    return blank;
}

SheetMesh meshed(const BlankGrid& blank) {
    const Result<SheetMesh> mesh = mesh_blank(blank);
    EXPECT_TRUE(mesh);
    return mesh.value_or(SheetMesh{});
}

TEST(TaperedMesh, HasItsLastRowOnTheFreeEdge) {
    const SheetMesh mesh = meshed(tapered(0));
    ASSERT_GT(mesh.free_edge.size(), 5U);
    for (const int node : mesh.free_edge) {
        EXPECT_NEAR(mesh.distance[node], taper.at(mesh.station[node]), rounding);
        const outline::LinePosition at{mesh.station[node], mesh.distance[node]};
        EXPECT_LT((mesh.positions.col(node) - tapered(0).line.point(at)).norm(), rounding);
    }
    EXPECT_NEAR(mesh.distance[mesh.free_edge.back()], 9, rounding);
}

TEST(TaperedMesh, LeavesWebAndBendAsTheyAre) {
    BlankGrid even = tapered(0);
    even.flange_widths = {};
    const SheetMesh mesh = meshed(tapered(0));
    for (const std::vector<int>& line : mesh.station_lines) {
        EXPECT_EQ(mesh.distance[line.front()], -20);
    }
    for (const int node : mesh.bend_end) {
        EXPECT_EQ(mesh.distance[node], 4);
    }
    const std::vector<double> rows = distances_across(bands_across(even));
    for (std::size_t j = 0; j < rows.size(); ++j) {
        if (rows[j] <= 4) {
            EXPECT_EQ(mesh.distance[mesh.station_lines.back()[j]], rows[j]);
        }
    }
}

// Each element keeps its share of the straight flange, and none is turned inside out.
TEST(TaperedMesh, DrawsTheRowsOfTheFlangeTogetherEvenly) {
    const SheetMesh mesh = meshed(tapered(0));
    const std::vector<int>& first = mesh.station_lines.front();
    for (const std::vector<int>& line : mesh.station_lines) {
        const double width = taper.at(mesh.station[line.front()]);
        for (std::size_t j = 0; j < line.size(); ++j) {
            const double row = mesh.distance[first[j]];
            if (row > 4) {
                const double share = (row - 4) / 8.5;
                EXPECT_NEAR(mesh.distance[line[j]], 4 + share * (width - 4), rounding);
            }
        }
    }
}

TEST(TaperedMesh, HasAStationAtACornerOfTheEdge) {
    const std::vector<double> stations = stations_along(tapered(0));
    EXPECT_EQ(std::ranges::count(stations, 11), 1);
}

TEST(TaperedMesh, IsTheEvenOneToTheBitWhereNothingVaries) {
    BlankGrid even = tapered(9.5);
    even.flange_widths = {};
    BlankGrid written = even;
    written.flange_widths = outline::Profile({{0, 12.5}});
    const SheetMesh one = meshed(even);
    const SheetMesh other = meshed(written);
    EXPECT_EQ(one.positions, other.positions);
    EXPECT_EQ(one.distance, other.distance);
    EXPECT_EQ(one.quads, other.quads);
}

TEST(TaperedMesh, IsCutAlongItsNetEdge) {
    const SheetMesh mesh = meshed(tapered(9.5)); // 3 mm to be cut off
    const SheetMesh left = trim_beyond(mesh, taper.at(0) - 3).mesh;
    ASSERT_EQ(left.free_edge.size(), mesh.free_edge.size());
    EXPECT_LT(left.n_elements(), mesh.n_elements());
    for (std::size_t i = 0; i < left.free_edge.size(); ++i) {
        const int node = left.free_edge[i];
        EXPECT_NEAR(left.distance[node], taper.at(left.station[node]) - 3, rounding);
        EXPECT_NEAR(
            mesh.distance[mesh.free_edge[i]], taper.at(mesh.station[mesh.free_edge[i]]), rounding
        );
    }
}

TEST(TaperedMesh, KeepsEachRowOfTheAllowanceAsFarOffTheEdge) {
    const BlankGrid blank = tapered(9.5);
    for (const double station : {0.0, 15.0, 30.0}) {
        const double narrower = taper.at(station) - 12.5;
        for (const double row : {9.5, 10.0, 12.5}) {
            EXPECT_NEAR(row_distance(blank, row, station), row + narrower, rounding);
        }
    }
}

} // namespace
} // namespace flangewright::grid
