#include "mesh/grid/blank_mesher.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <numbers>
#include <set>
#include <utility>

namespace flangewright::grid {
namespace {

constexpr double pi = std::numbers::pi;

BlankGrid strip(const outline::BendLine& line) {
    BlankGrid blank;
    blank.line = line;
    blank.web_width = 40;
    blank.bend_width = 4;
    blank.flange_width = 24;
    blank.widest = 4;
    blank.widest_in_flange = 1.5;
    blank.longest = 6;
    return blank;
}

double quad_area(const SheetMesh& mesh, const std::array<int, 4>& quad) {
    double twice = 0;
    for (std::size_t k = 0; k < 4; ++k) {
        const Eigen::Vector3d a = mesh.positions.col(quad[k]);
        const Eigen::Vector3d b = mesh.positions.col(quad[(k + 1) % 4]);
        twice += a.x() * b.y() - a.y() * b.x();
    }
    return 0.5 * twice;
}

double total_area(const SheetMesh& mesh) {
    double area = 0;
    for (const std::array<int, 4>& quad : mesh.quads) {
        area += quad_area(mesh, quad);
    }
    return area;
}

using SideOfQuad = std::pair<int, int>;

/// How many elements have each side.
std::map<SideOfQuad, int> sides_of(const SheetMesh& mesh) {
    std::map<SideOfQuad, int> sides;
    for (const std::array<int, 4>& quad : mesh.quads) {
        for (std::size_t k = 0; k < 4; ++k) {
            ++sides[std::minmax(quad[k], quad[(k + 1) % 4])];
        }
    }
    return sides;
}

bool is_on_border(const std::map<SideOfQuad, int>& sides, int a, int b) {
    const auto found = sides.find(std::minmax(a, b));
    return found != sides.end() && found->second == 1;
}

/// Nodes less sides plus elements: 1 for a disk, one less for each hole.
int euler_number(const SheetMesh& mesh) {
    return mesh.n_nodes() - static_cast<int>(sides_of(mesh).size()) + mesh.n_elements();
}

/// All sides lie on one or two elements, and every node is used.
void expect_whole(const SheetMesh& mesh) {
    std::set<int> used;
    for (const auto& [side, n] : sides_of(mesh)) {
        EXPECT_LE(n, 2);
        used.insert({side.first, side.second});
    }
    EXPECT_EQ(static_cast<int>(used.size()), mesh.n_nodes());
    for (const std::array<int, 4>& quad : mesh.quads) {
        EXPECT_GT(quad_area(mesh, quad), 0);
    }
}

/// Area of a polygon of n sides inside a circle.
double polygon_area(double diameter, int n) {
    return 0.125 * diameter * diameter * n * std::sin(2 * pi / n);
}

TEST(OpenedMesh, HoleInTheWebTakesAwayItsArea) {
    BlankGrid blank = strip(outline::BendLine::straight(80));
    const double whole = total_area(*mesh_blank(blank));
    blank.openings.holes = {{40, -20, 10, false}};
    const Result<SheetMesh> mesh = mesh_blank(blank);
    ASSERT_TRUE(mesh.has_value()) << mesh.error().object;
    expect_whole(*mesh);
    EXPECT_EQ(euler_number(*mesh), 0);
    EXPECT_NEAR(total_area(*mesh), whole - polygon_area(10, blank.n_round_hole), 1e-9 * whole);
    ASSERT_EQ(mesh->rims.size(), 1U);
    EXPECT_EQ(mesh->rims[0].kind, Rim::Kind::hole);
    EXPECT_EQ(static_cast<int>(mesh->rims[0].nodes.size()), blank.n_round_hole);
}

TEST(OpenedMesh, RimLiesOnTheCircleAndOnTheBorder) {
    BlankGrid blank = strip(outline::BendLine::arc(150, 0.5, outline::Curve::concave));
    blank.openings.holes = {{30, -22, 12, false}, {50, 14, 4, false}};
    const Result<SheetMesh> mesh = mesh_blank(blank);
    ASSERT_TRUE(mesh.has_value()) << mesh.error().object;
    expect_whole(*mesh);
    EXPECT_EQ(euler_number(*mesh), -1);
    const std::map<SideOfQuad, int> sides = sides_of(*mesh);
    ASSERT_EQ(mesh->rims.size(), 2U);
    for (const Rim& rim : mesh->rims) {
        const outline::Hole& hole = blank.openings.holes[rim.number];
        const Eigen::Vector3d centre = blank.line.point({hole.station, hole.distance});
        for (std::size_t i = 0; i < rim.nodes.size(); ++i) {
            EXPECT_NEAR(
                (mesh->positions.col(rim.nodes[i]) - centre).norm(), 0.5 * hole.diameter, 1e-9
            );
            const int next = rim.nodes[(i + 1) % rim.nodes.size()];
            EXPECT_TRUE(is_on_border(sides, rim.nodes[i], next));
        }
    }
}

TEST(OpenedMesh, NodesKnowTheirStationAndDistance) {
    BlankGrid blank = strip(outline::BendLine::arc(150, 0.5, outline::Curve::convex));
    blank.openings.holes = {{30, -22, 12, false}};
    const Result<SheetMesh> mesh = mesh_blank(blank);
    ASSERT_TRUE(mesh.has_value());
    for (int node = 0; node < mesh->n_nodes(); ++node) {
        const Eigen::Vector3d at = blank.line.point({mesh->station[node], mesh->distance[node]});
        EXPECT_NEAR((at - mesh->positions.col(node)).norm(), 0, 1e-9);
    }
}

TEST(OpenedMesh, HolesSideBySideShareAWindow) {
    BlankGrid blank = strip(outline::BendLine::straight(120));
    blank.openings.holes = {{30, -20, 8, false}, {42, -22, 8, false}, {90, -18, 10, false}};
    const Result<SheetMesh> mesh = mesh_blank(blank);
    ASSERT_TRUE(mesh.has_value()) << mesh.error().object;
    expect_whole(*mesh);
    EXPECT_EQ(euler_number(*mesh), 1 - 3);
    EXPECT_EQ(mesh->rims.size(), 3U);
}

TEST(OpenedMesh, NotchInterruptsTheEdge) {
    BlankGrid blank = strip(outline::BendLine::straight(80));
    const double whole = total_area(*mesh_blank(blank));
    blank.openings.notches = {{35, 5, 10}};
    const Result<SheetMesh> mesh = mesh_blank(blank);
    ASSERT_TRUE(mesh.has_value()) << mesh.error().object;
    expect_whole(*mesh);
    EXPECT_EQ(euler_number(*mesh), 1);
    const double round = 0.5 * polygon_area(5, blank.n_round_hole);
    EXPECT_NEAR(total_area(*mesh), whole - 5 * 7.5 - round, 1e-9 * whole);
    ASSERT_EQ(mesh->rims.size(), 1U);
    ASSERT_EQ(mesh->edge_breaks.size(), 1U);
    const std::size_t at = mesh->edge_breaks[0];
    EXPECT_EQ(mesh->rims[0].nodes.front(), mesh->free_edge[at]);
    EXPECT_EQ(mesh->rims[0].nodes.back(), mesh->free_edge[at + 1]);
}

/// Free edge and rims together are the border along the flange's edge, piece by piece.
TEST(OpenedMesh, EdgePiecesAndRimsAreTheBorder) {
    BlankGrid blank = strip(outline::BendLine::arc(200, 0.6, outline::Curve::concave));
    blank.openings.notches = {{25, 4, 8}, {34, 4, 8}};
    blank.openings.tabs = {{70, 90, 6}};
    const Result<SheetMesh> mesh = mesh_blank(blank);
    ASSERT_TRUE(mesh.has_value()) << mesh.error().object;
    expect_whole(*mesh);
    const std::map<SideOfQuad, int> sides = sides_of(*mesh);
    std::set<std::size_t> breaks(mesh->edge_breaks.begin(), mesh->edge_breaks.end());
    for (std::size_t i = 0; i + 1 < mesh->free_edge.size(); ++i) {
        const bool is_side = is_on_border(sides, mesh->free_edge[i], mesh->free_edge[i + 1]);
        EXPECT_EQ(is_side, !breaks.contains(i)) << i;
    }
    EXPECT_EQ(mesh->edge_breaks.size(), 3U); // both notches in one window
    EXPECT_EQ(mesh->rims.size(), 4U);
    for (const Rim& rim : mesh->rims) {
        for (std::size_t i = 0; i + 1 < rim.nodes.size(); ++i) {
            EXPECT_TRUE(is_on_border(sides, rim.nodes[i], rim.nodes[i + 1]));
        }
    }
}

TEST(OpenedMesh, TabStandsOutFromTheEdge) {
    BlankGrid blank = strip(outline::BendLine::straight(80));
    const double whole = total_area(*mesh_blank(blank));
    blank.openings.tabs = {{20, 40, 7}};
    const Result<SheetMesh> mesh = mesh_blank(blank);
    ASSERT_TRUE(mesh.has_value()) << mesh.error().object;
    expect_whole(*mesh);
    EXPECT_NEAR(total_area(*mesh), whole + 20 * 7, 1e-9 * whole);
    EXPECT_NEAR(mesh->distance.maxCoeff(), 24 + 7, 1e-9);
    EXPECT_EQ(mesh->station_lines.size(), mesh->free_edge.size());
    for (const int node : mesh->free_edge) {
        const double station = mesh->station[node];
        const bool is_on_tab = station > 20 - 1e-9 && station < 40 + 1e-9;
        EXPECT_NEAR(mesh->distance[node], is_on_tab ? 31 : 24, 1e-9);
    }
}

/// Positions all over web and flange, sizes from a rivet's to nearly the web's.
TEST(OpenedMesh, AnyPlaceClearOfBendAndEndsCanBeMeshed) {
    int n = 0;
    for (const double diameter : {2.0, 5.0, 12.0, 30.0}) {
        for (const double station : {0.5 * diameter + 2, 31.3, 47.0, 80 - 0.5 * diameter - 2}) {
            for (const double distance :
                 {-2 - 0.5 * diameter, -17.7, -38 + 0.5 * diameter, 6 + 0.5 * diameter, 13.0}) {
                const double reach = 0.5 * diameter;
                const bool in_web = distance + reach <= -2 && distance - reach >= -38;
                const bool in_flange = distance - reach >= 6 && distance + reach <= 22;
                if (!in_web && !in_flange) {
                    continue;
                }
                BlankGrid blank = strip(outline::BendLine::straight(80));
                blank.openings.holes = {{station, distance, diameter, false}};
                const Result<SheetMesh> mesh = mesh_blank(blank);
                ASSERT_TRUE(mesh.has_value()) << diameter << " at " << station << ", " << distance
                                              << ": " << mesh.error().object;
                EXPECT_EQ(euler_number(*mesh), 0);
                expect_whole(*mesh);
                ++n;
            }
        }
    }
    EXPECT_GT(n, 30);
}

TEST(OpenedMesh, SameBlankGivesTheSameMesh) {
    BlankGrid blank = strip(outline::BendLine::straight(80));
    blank.openings.holes = {{40, -20, 10, false}};
    const Result<SheetMesh> one = mesh_blank(blank);
    const Result<SheetMesh> other = mesh_blank(blank);
    ASSERT_TRUE(one.has_value() && other.has_value());
    EXPECT_EQ(one->quads, other->quads);
    EXPECT_EQ(one->positions, other->positions);
}

TEST(OpenedMesh, TheNextBlankWithoutOpeningsIsMapped) {
    BlankGrid blank = strip(outline::BendLine::straight(80));
    const Result<SheetMesh> before = mesh_blank(blank);
    blank.openings.holes = {{40, -20, 10, false}};
    ASSERT_TRUE(mesh_blank(blank).has_value());
    blank.openings = {};
    const Result<SheetMesh> after = mesh_blank(blank);
    ASSERT_TRUE(before.has_value() && after.has_value());
    EXPECT_EQ(before->quads, after->quads);
}

// A width that varies draws the rows together, not the holes.
TEST(OpenedMesh, HolesAndNotchesOfATaperedFlangeKeepTheirShape) {
    BlankGrid blank = strip(outline::BendLine::arc(150, 0.55, outline::Curve::concave));
    blank.flange_widths = outline::Profile({{0, 24}, {80, 19}});
    blank.openings.holes = {{55, 12, 5, false}};
    blank.openings.notches = {{20, 6, 7}};
    const auto mesh = mesh_blank(blank);
    ASSERT_TRUE(mesh) << mesh.error().object;
    expect_whole(*mesh);
    EXPECT_EQ(euler_number(*mesh), 0);
    const Eigen::Vector3d centre = blank.line.point({55, 12});
    for (const Rim& rim : mesh->rims) {
        if (rim.kind == Rim::Kind::hole) {
            for (const int node : rim.nodes) {
                EXPECT_NEAR((mesh->positions.col(node) - centre).norm(), 2.5, 1e-9);
            }
        } else {
            double bottom = 1e9;
            for (const int node : rim.nodes) {
                bottom = std::min(bottom, mesh->distance[node]);
            }
            EXPECT_NEAR(bottom, blank.flange_widths.at(20) - 7, 1e-6);
        }
    }
    for (const int node : mesh->free_edge) {
        EXPECT_NEAR(mesh->distance[node], blank.flange_widths.at(mesh->station[node]), 1e-6);
    }
}

} // namespace
} // namespace flangewright::grid
