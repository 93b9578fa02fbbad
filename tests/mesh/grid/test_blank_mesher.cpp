#include "mesh/base/check.hpp"
#include "mesh/grid/blank_mesher.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <string>
#include <utility>

namespace flangewright::grid {
namespace {

using outline::BendLine;
using outline::Curve;

// Rounding of coordinates up to some 100 mm.
constexpr double rounding = 1e-10;

BlankGrid blank_on(const BendLine& line) {
    BlankGrid blank;
    blank.line = line;
    blank.web_width = 30;
    blank.bend_width = 4;
    blank.flange_width = 18;
    return blank;
}

struct Shape {
    std::string name;
    BendLine line;
};

class MeshedBlank : public testing::TestWithParam<Shape> {
protected:
    void SetUp() override {
        const Result<SheetMesh> meshed = mesh_blank(blank_);
        ASSERT_TRUE(meshed.has_value()) << meshed.error().object;
        mesh_ = *meshed;
    }

    [[nodiscard]] double area(const std::array<int, 4>& quad) const {
        const Eigen::Vector3d one = mesh_.positions.col(quad[2]) - mesh_.positions.col(quad[0]);
        const Eigen::Vector3d other = mesh_.positions.col(quad[3]) - mesh_.positions.col(quad[1]);
        return 0.5 * one.cross(other).z();
    }

    /// Largest distance of the named nodes from a line of equal distance to the bend tangent, and
    /// whether they run from end to end.
    void expect_along(const std::vector<int>& nodes, double distance) const {
        ASSERT_EQ(nodes.size(), mesh_.station_lines.size());
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            const auto at = blank_.line.locate(mesh_.positions.col(nodes[i]));
            EXPECT_NEAR(at.distance, distance, rounding);
            EXPECT_EQ(mesh_.station[nodes[i]], mesh_.station[mesh_.station_lines[i].front()]);
        }
        EXPECT_EQ(mesh_.station[nodes.front()], 0);
        EXPECT_NEAR(mesh_.station[nodes.back()], blank_.line.length(), rounding);
    }

    BlankGrid blank_ = blank_on(GetParam().line);
    SheetMesh mesh_;
};

TEST_P(MeshedBlank, CoversTheExactArea) {
    // Cells between two arcs are trapezoids whose corners lie on the arcs, so each strip's area is
    // that of its sector times sin(turn)/turn: exact for the polygon, no tolerance for the mesh.
    double area_sum = 0;
    for (const auto& quad : mesh_.quads) {
        area_sum += area(quad);
    }
    const double length = blank_.line.length();
    const double k = blank_.line.curvature(0);
    const double to = blank_.flange_width;
    const double from = -blank_.web_width;
    const double exact = length * ((to - from) - 0.5 * k * (to * to - from * from));
    const double turn = std::abs(k) * length / static_cast<double>(mesh_.station_lines.size() - 1);
    const double chords = turn > 0 ? std::sin(turn) / turn : 1;
    EXPECT_NEAR(area_sum / (exact * chords), 1, 1e-12);
    EXPECT_NEAR(area_sum / exact, 1, 0.0436 * 0.0436 / 6 * 1.001); // largest_turn^2 / 6
}

TEST_P(MeshedBlank, EveryElementIsCounterClockwise) {
    for (const auto& quad : mesh_.quads) {
        EXPECT_GT(area(quad), 0);
    }
}

TEST_P(MeshedBlank, IsConforming) {
    std::map<std::pair<int, int>, int> uses;
    for (const auto& quad : mesh_.quads) {
        for (std::size_t i = 0; i < 4; ++i) {
            ++uses[std::minmax({quad[i], quad[(i + 1) % 4]})];
        }
    }
    std::size_t n_outer = 0;
    for (const auto& [edge, n_uses] : uses) {
        EXPECT_TRUE(n_uses == 1 || n_uses == 2);
        n_outer += n_uses == 1 ? 1 : 0;
    }
    const std::size_t n_along = mesh_.station_lines.size() - 1;
    const std::size_t n_across = mesh_.start_end.size() - 1;
    EXPECT_EQ(n_outer, 2 * (n_along + n_across));
    EXPECT_EQ(mesh_.quads.size(), n_along * n_across);
    EXPECT_EQ(static_cast<std::size_t>(mesh_.n_nodes()), (n_along + 1) * (n_across + 1));
}

TEST_P(MeshedBlank, NodesLieExactlyWhereTheirStationAndDistanceSay) {
    for (int node = 0; node < mesh_.n_nodes(); ++node) {
        const Eigen::Vector3d place =
            blank_.line.point({mesh_.station[node], mesh_.distance[node]});
        EXPECT_EQ((mesh_.positions.col(node) - place).norm(), 0);
        EXPECT_EQ(mesh_.positions(2, node), 0);
    }
}

TEST_P(MeshedBlank, StationLinesRunFromWebEdgeToFreeEdge) {
    int next = 0;
    double station = -1;
    for (const auto& line : mesh_.station_lines) {
        EXPECT_GT(mesh_.station[line.front()], station);
        station = mesh_.station[line.front()];
        for (std::size_t j = 0; j < line.size(); ++j) {
            EXPECT_EQ(line[j], next++);
            EXPECT_EQ(mesh_.station[line[j]], station);
            if (j > 0) {
                EXPECT_GT(mesh_.distance[line[j]], mesh_.distance[line[j - 1]]);
            }
        }
    }
    EXPECT_EQ(next, mesh_.n_nodes());
}

TEST_P(MeshedBlank, NamedEdgesLieWhereTheyShould) {
    expect_along(mesh_.web_edge, -blank_.web_width);
    expect_along(mesh_.bend_begin, 0);
    expect_along(mesh_.bend_end, blank_.bend_width);
    expect_along(mesh_.free_edge, blank_.flange_width);
    EXPECT_EQ(mesh_.start_end, mesh_.station_lines.front());
    EXPECT_EQ(mesh_.far_end, mesh_.station_lines.back());
}

TEST_P(MeshedBlank, NoElementIsLongerOrTurnsMoreThanAsked) {
    for (std::size_t i = 1; i < mesh_.station_lines.size(); ++i) {
        const double length = mesh_.station[mesh_.station_lines[i].front()]
            - mesh_.station[mesh_.station_lines[i - 1].front()];
        EXPECT_LE(length, blank_.longest + rounding);
        EXPECT_LE(length * std::abs(blank_.line.curvature(0)), blank_.largest_turn + rounding);
    }
}

TEST_P(MeshedBlank, HasNoMoreStationsThanNeeded) {
    const double by_length = blank_.line.length() / blank_.longest;
    const double by_turn = blank_.line.sweep() / blank_.largest_turn;
    const double n_along = static_cast<double>(mesh_.station_lines.size() - 1);
    EXPECT_LT(n_along, std::max(by_length, by_turn) + 1);
}

TEST_P(MeshedBlank, BendHasAsManyElementsAsAsked) {
    const auto& line = mesh_.station_lines.front();
    const auto in_bend = std::count_if(line.begin(), line.end(), [&](int node) {
        return mesh_.distance[node] >= 0 && mesh_.distance[node] <= blank_.bend_width;
    });
    EXPECT_EQ(in_bend, blank_.n_round_nose + 1);
}

INSTANTIATE_TEST_SUITE_P(
    Lines,
    MeshedBlank,
    testing::Values(
        Shape{"Straight", BendLine::straight(50)},
        Shape{"Concave", BendLine::arc(60, 1.5, Curve::concave)},
        Shape{"Convex", BendLine::arc(60, 1.5, Curve::convex)},
        Shape{"ConcavePastHalfATurn", BendLine::arc(60, 3.5, Curve::concave)},
        Shape{"ConvexNearlyAFullTurn", BendLine::arc(60, 6.2, Curve::convex)},
        Shape{"OneElementSlice", BendLine::arc(60, 0.02, Curve::concave)}
    ),
    [](const auto& shape) { return shape.param.name; }
);

TEST(BlankMesher, TwoHalfArcsGiveTheMeshOfTheWholeArc) {
    const Result<SheetMesh> whole = mesh_blank(blank_on(BendLine::arc(60, 1.5, Curve::convex)));
    const Result<SheetMesh> halves =
        mesh_blank(blank_on(BendLine::chain({{50, -1.0 / 60}, {40, -1.0 / 60}})));
    ASSERT_TRUE(whole.has_value() && halves.has_value());
    EXPECT_EQ(whole->quads, halves->quads);
    EXPECT_LT((whole->positions - halves->positions).cwiseAbs().maxCoeff(), rounding);
    EXPECT_LT((whole->station - halves->station).cwiseAbs().maxCoeff(), rounding);
}

TEST(BlankMesher, MeshOfAnSCurveIsCounterClockwiseAndOnItsPlaces) {
    const BlankGrid blank = blank_on(BendLine::chain({{70, 1.0 / 80}, {30, 0}, {90, -1.0 / 60}}));
    const Result<SheetMesh> mesh = mesh_blank(blank);
    ASSERT_TRUE(mesh.has_value());
    for (const auto& quad : mesh->quads) {
        const Eigen::Vector3d one = mesh->positions.col(quad[2]) - mesh->positions.col(quad[0]);
        const Eigen::Vector3d other = mesh->positions.col(quad[3]) - mesh->positions.col(quad[1]);
        EXPECT_GT(one.cross(other).z(), 0);
    }
    for (int node = 0; node < mesh->n_nodes(); ++node) {
        const auto at = blank.line.locate(mesh->positions.col(node));
        EXPECT_NEAR(at.station, mesh->station[node], rounding);
        EXPECT_NEAR(at.distance, mesh->distance[node], rounding);
    }
}

TEST(BlankMesher, FlangeThatEndsWithTheBendHasItsFreeEdgeThere) {
    BlankGrid blank = blank_on(BendLine::straight(20));
    blank.flange_width = blank.bend_width;
    const Result<SheetMesh> mesh = mesh_blank(blank);
    ASSERT_TRUE(mesh.has_value());
    EXPECT_EQ(mesh->bend_end, mesh->free_edge);
}

TEST(BlankMesher, FinerNoseGivesMoreElements) {
    BlankGrid blank = blank_on(BendLine::straight(20));
    const Result<SheetMesh> coarse = mesh_blank(blank);
    blank.n_round_nose *= 2;
    const Result<SheetMesh> fine = mesh_blank(blank);
    ASSERT_TRUE(coarse.has_value() && fine.has_value());
    EXPECT_GT(fine->n_elements(), coarse->n_elements());
}

TEST(BlankMesher, BlankThatReachesTheCentreOfItsArcIsACallersBug) {
    BlankGrid blank = blank_on(BendLine::arc(15, 1, Curve::concave));
    EXPECT_THROW((void)mesh_blank(blank), InternalError);
    blank.line = BendLine::arc(25, 1, Curve::convex);
    EXPECT_THROW((void)mesh_blank(blank), InternalError);
}

TEST(BlankMesher, FullRingIsACallersBug) {
    const BendLine ring = BendLine::arc(60, 2 * std::numbers::pi, Curve::concave);
    EXPECT_THROW((void)mesh_blank(blank_on(ring)), InternalError);
}

} // namespace
} // namespace flangewright::grid
