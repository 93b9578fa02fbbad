#include "solver/findings/thinning.hpp"
#include "tests/support/flat_blank.hpp"

#include <gtest/gtest.h>

namespace flangewright::findings {
namespace {

TEST(Thinning, FindsTheThinnestPlace) {
    const grid::SheetMesh mesh = support::flat_blank({});
    Eigen::VectorXd thickness = Eigen::VectorXd::Constant(mesh.n_nodes(), 0.8);
    const int node = mesh.station_lines[4][10];
    thickness(node) = 0.72;
    thickness(mesh.station_lines[6][2]) = 0.95; // thicker must not count
    const Thinnest thinnest = thinnest_place(mesh, thickness, 0.8);
    EXPECT_NEAR(thinnest.thinning, 0.1, 1e-12);
    EXPECT_EQ(thinnest.station, mesh.station(node));
    EXPECT_EQ(thinnest.distance, mesh.distance(node));
    EXPECT_EQ(least_thickness(mesh, thickness, 4), 0.72);
    EXPECT_EQ(least_thickness(mesh, thickness, 6), 0.8);
}

TEST(Thinning, IsNegativeWhereTheSheetBecameThicker) {
    const grid::SheetMesh mesh = support::flat_blank({});
    const Eigen::VectorXd thickness = Eigen::VectorXd::Constant(mesh.n_nodes(), 0.88);
    EXPECT_NEAR(thinnest_place(mesh, thickness, 0.8).thinning, -0.1, 1e-12);
}

} // namespace
} // namespace flangewright::findings
