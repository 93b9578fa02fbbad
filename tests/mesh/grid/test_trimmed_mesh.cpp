// A trimmed blank is the whole one without what lies beyond the cut.
#include "mesh/grid/blank_mesher.hpp"
#include "mesh/grid/trimmed_mesh.hpp"
#include "tests/support/blank_to_trim.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace flangewright::grid {
namespace {

using support::cut_of_blank;

TEST(TrimmedMesh, TheWholeBlankHasARowOfNodesAlongTheCut) {
    const SheetMesh mesh = support::blank_to_trim();
    for (const std::vector<int>& line : mesh.station_lines) {
        const auto is_on_cut = [&](int node) { return mesh.distance[node] == cut_of_blank; };
        EXPECT_EQ(std::ranges::count_if(line, is_on_cut), 1);
        EXPECT_EQ(mesh.distance[line.back()], 12.5);
    }
}

TEST(TrimmedMesh, EndsAtTheCutAndKeepsAllElse) {
    const SheetMesh mesh = support::blank_to_trim();
    const TrimmedMesh trimmed = trim_beyond(mesh, cut_of_blank);
    const SheetMesh& left = trimmed.mesh;
    ASSERT_LT(left.n_nodes(), mesh.n_nodes());
    ASSERT_EQ(static_cast<std::size_t>(left.n_nodes()), trimmed.kept_nodes.size());
    EXPECT_EQ(left.distance.maxCoeff(), cut_of_blank);
    for (int node = 0; node < left.n_nodes(); ++node) {
        const int was = trimmed.kept_nodes[static_cast<std::size_t>(node)];
        EXPECT_EQ(left.positions.col(node), mesh.positions.col(was));
        EXPECT_EQ(left.station[node], mesh.station[was]);
    }
    for (std::size_t k = 0; k < left.quads.size(); ++k) {
        const auto& was = mesh.quads[static_cast<std::size_t>(trimmed.kept_quads[k])];
        for (std::size_t corner = 0; corner < 4; ++corner) {
            EXPECT_EQ(
                trimmed.kept_nodes[static_cast<std::size_t>(left.quads[k][corner])], was[corner]
            );
        }
    }
}

TEST(TrimmedMesh, LosesExactlyTheElementsBeyondTheCut) {
    const SheetMesh mesh = support::blank_to_trim();
    const auto is_beyond = [&](const std::array<int, 4>& quad) {
        return std::ranges::any_of(quad, [&](int node) {
            return mesh.distance[node] > cut_of_blank;
        });
    };
    const auto n_beyond = std::ranges::count_if(mesh.quads, is_beyond);
    EXPECT_GT(n_beyond, 0);
    EXPECT_EQ(trim_beyond(mesh, cut_of_blank).mesh.n_elements(), mesh.n_elements() - n_beyond);
}

TEST(TrimmedMesh, NamesItsEdges) {
    const SheetMesh mesh = support::blank_to_trim();
    const SheetMesh left = trim_beyond(mesh, cut_of_blank).mesh;
    ASSERT_EQ(left.free_edge.size(), mesh.free_edge.size());
    for (std::size_t i = 0; i < left.free_edge.size(); ++i) {
        EXPECT_EQ(left.distance[left.free_edge[i]], cut_of_blank);
        EXPECT_EQ(left.station_lines[i].back(), left.free_edge[i]);
        EXPECT_EQ(left.distance[left.bend_begin[i]], 0);
        EXPECT_EQ(left.distance[left.bend_end[i]], 4);
        EXPECT_EQ(left.distance[left.web_edge[i]], -20);
    }
    EXPECT_EQ(left.start_end, left.station_lines.front());
    EXPECT_EQ(left.far_end, left.station_lines.back());
}

// Nodes about holes belong to no line; they go or stay by where they lie.
TEST(TrimmedMesh, KeepsHolesBelowTheCutAndLosesThoseBeyondIt) {
    BlankGrid blank;
    blank.line = outline::BendLine::straight(60);
    blank.web_width = 30;
    blank.bend_width = 4;
    blank.flange_width = 24;
    blank.cut_width = 17;
    blank.openings.holes = {{20, 10, 4, false}, {40, 20.5, 3, false}, {30, -15, 8, false}};
    const SheetMesh mesh = *mesh_blank(blank);
    ASSERT_EQ(mesh.rims.size(), 3U);
    const SheetMesh left = trim_beyond(mesh, 17).mesh;
    ASSERT_EQ(left.rims.size(), 2U);
    EXPECT_EQ(left.rims[0].number, 0U);
    EXPECT_EQ(left.rims[1].number, 2U);
    EXPECT_NEAR(left.distance.maxCoeff(), 17, 1e-9);
    for (const Rim& rim : left.rims) {
        const outline::Hole& hole = blank.openings.holes[rim.number];
        const Eigen::Vector3d centre = blank.line.point({hole.station, hole.distance});
        for (const int node : rim.nodes) {
            EXPECT_NEAR((left.positions.col(node) - centre).norm(), 0.5 * hole.diameter, 1e-9);
        }
    }
    for (const int node : left.free_edge) {
        EXPECT_NEAR(left.distance[node], 17, 1e-9);
    }
}

// The cut slopes: round a hole, where no line of nodes runs, it lies between those beside.
TEST(TrimmedMesh, CutsATaperedFlangeClearOfItsHoles) {
    BlankGrid blank;
    blank.line = outline::BendLine::straight(60);
    blank.web_width = 20;
    blank.bend_width = 4;
    blank.flange_width = 22;
    blank.flange_widths = outline::Profile({{0, 14}, {60, 22}});
    blank.cut_width = 19;
    blank.openings.holes = {{45, 12, 4, false}}; // past where the cut is at the start
    const Result<SheetMesh> mesh = mesh_blank(blank);
    ASSERT_TRUE(mesh) << mesh.error().object;
    const SheetMesh left = trim_beyond(*mesh, 11).mesh;
    ASSERT_EQ(left.rims.size(), 1U);
    EXPECT_EQ(left.rims.front().nodes.size(), mesh->rims.front().nodes.size());
    for (const int node : left.free_edge) {
        EXPECT_NEAR(left.distance[node], blank.flange_widths.at(left.station[node]) - 3, 1e-9);
    }
    const auto is_beyond = [&](const std::array<int, 4>& quad) {
        return std::ranges::any_of(quad, [&](int node) {
            return mesh->distance[node] > blank.flange_widths.at(mesh->station[node]) - 3 + 1e-6;
        });
    };
    const auto n_beyond = std::ranges::count_if(mesh->quads, is_beyond);
    EXPECT_EQ(left.n_elements() + n_beyond, mesh->n_elements());
}

} // namespace
} // namespace flangewright::grid
