#include "solver/findings/edge_strain.hpp"
#include "solver/findings/openings.hpp"
#include "tests/support/opened_strip.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::findings {
namespace {

using support::opened_strip;

TEST(Openings, NothingHappensToAFlatBlank) {
    const grid::SheetMesh mesh = opened_strip();
    const std::vector<OpeningFindings> found = find_openings(mesh, mesh.positions);
    ASSERT_EQ(found.size(), 4U); // a tab has two sides
    for (const OpeningFindings& each : found) {
        EXPECT_NEAR(each.tension_most, 0, 1e-12);
    }
    EXPECT_EQ(word_for(found[0].kind), "hole");
    EXPECT_NEAR(*found[0].least_diameter, 10, 1e-9);
    EXPECT_NEAR(*found[0].most_diameter, 10, 1e-9);
    EXPECT_FALSE(found[1].least_diameter.has_value());
}

TEST(Openings, SheetStretchedAlongMakesAnOvalOfTheHole) {
    const grid::SheetMesh mesh = opened_strip();
    Eigen::Matrix3Xd positions = mesh.positions;
    positions.row(0) *= 1.1;
    const OpeningFindings hole = find_openings(mesh, positions).front();
    EXPECT_NEAR(*hole.most_diameter, 11, 0.01);
    EXPECT_NEAR(*hole.least_diameter, 10, 0.01);
    EXPECT_NEAR(hole.tension_most, std::log(1.1), 0.005); // where the rim runs along
    EXPECT_NEAR(hole.station, 40, 1.5);
}

TEST(Openings, UsedStretchCountsFromTheSoftShape) {
    const grid::SheetMesh mesh = opened_strip();
    Eigen::Matrix3Xd soft = mesh.positions;
    soft.row(0) *= 1.1;
    Eigen::Matrix3Xd now = mesh.positions;
    now.row(0) *= 1.15;
    std::vector<OpeningFindings> found = find_openings(mesh, now);
    count_openings_from_soft(found, mesh, now, soft);
    EXPECT_NEAR(found.front().tension_used, std::log(1.15 / 1.1), 0.003);
    EXPECT_NEAR(found.front().tension_most, std::log(1.15), 0.006);
}

/// All pieces of edge and rims are stretched alike, so no break may show.
TEST(Openings, EdgeBesideThemIsStretchedAsTheSheetIs) {
    const grid::SheetMesh mesh = opened_strip();
    const Eigen::Matrix3Xd positions = 1.07 * mesh.positions;
    const Eigen::VectorXd strain = edge_strain(mesh, positions, {});
    EXPECT_NEAR(strain.maxCoeff(), std::log(1.07), 1e-12);
    EXPECT_NEAR(strain.minCoeff(), std::log(1.07), 1e-12);
}

} // namespace
} // namespace flangewright::findings
