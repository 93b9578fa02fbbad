#include "mesh/grid/blank_mesher.hpp"
#include "solver/findings/flange_development.hpp"
#include "solver/findings/hole_place.hpp"
#include "tests/support/flange_job.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::findings {
namespace {

/// Where a flat place comes to lie when the sheet is bent square round the nose, no strain.
Eigen::Vector3d bent(const job::Job& job, const Eigen::Vector3d& flat) {
    const double radius = job.block.nose_radius + 0.5 * job.sheet.thickness;
    const double past = flat.y();
    const double mid = 0.5 * job.sheet.thickness;
    if (past <= 0) {
        return {flat.x(), past, mid};
    }
    const double angle = std::min(past / radius, job.block.wall_angle);
    const double straight = past - angle * radius;
    return {
        flat.x(),
        radius * std::sin(angle) + straight * std::cos(angle),
        mid - radius * (1 - std::cos(angle)) - straight * std::sin(angle)};
}

TEST(HolePlace, IsThatOfThePlainBendWhereNothingStretches) {
    job::Job job = support::straight_job();
    job.blank.openings.holes = {{20, -15, 6, false}, {33, 13, 4, false}};
    grid::BlankGrid grid;
    grid.line = job.blank.line;
    grid.web_width = job.blank.web_width;
    grid.bend_width = bend_allowance(job);
    grid.flange_width = job.blank.flange_width;
    grid.openings = job.blank.openings;
    const auto mesh = grid::mesh_blank(grid);
    ASSERT_TRUE(mesh);
    const int n = mesh->n_nodes();
    Eigen::Matrix3Xd positions(3, n);
    for (int node = 0; node < n; ++node) {
        positions.col(node) = bent(job, {mesh->station[node], mesh->distance[node], 0});
    }
    // The line runs along x from its middle on.
    for (int node = 0; node < n; ++node) {
        positions(0, node) = mesh->positions(0, node);
    }
    const Eigen::Matrix3Xd directors = Eigen::Vector3d::UnitZ().replicate(1, n);
    const Eigen::VectorXd thickness = Eigen::VectorXd::Constant(n, job.sheet.thickness);
    const std::vector<FormedHole> holes =
        formed_holes(*mesh, {positions, directors, thickness}, job);
    ASSERT_EQ(holes.size(), 1U); // the web's hole stays where it is
    EXPECT_EQ(holes[0].number, 2);
    EXPECT_NEAR(holes[0].station, 33, 1e-6);
    EXPECT_NEAR(holes[0].depth, 13 - bend_allowance(job) + mould_setback(job), 1e-6);
    EXPECT_NEAR(holes[0].least_diameter, 4, 1e-6);
    EXPECT_NEAR(holes[0].most_diameter, 4, 1e-6);
}

} // namespace
} // namespace flangewright::findings
