#include "solver/findings/membrane_path.hpp"
#include "tests/support/flat_blank.hpp"

#include <gtest/gtest.h>

#include <numbers>

namespace flangewright::findings {
namespace {

constexpr double rounding = 1e-12;

/// The blank stretched along x and y of its own, flat.
Eigen::Matrix3Xd stretched(const grid::SheetMesh& mesh, double along, double across) {
    Eigen::Matrix3Xd positions = mesh.positions;
    positions.row(0) *= std::exp(along);
    positions.row(1) *= std::exp(across);
    return positions;
}

TEST(MembraneStrain, OfAnEvenStretchIsItsLogarithm) {
    const grid::SheetMesh mesh = support::flat_blank({});
    const Eigen::Matrix3Xd strain = membrane_strain(mesh, stretched(mesh, 0.1, -0.04), 0);
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        EXPECT_LT((strain.col(node) - Eigen::Vector3d(0.1, -0.04, 0)).norm(), rounding);
    }
}

TEST(MembraneStrain, TurnsIntoTheRollingAxes) {
    const grid::SheetMesh mesh = support::flat_blank({});
    const Eigen::Matrix3Xd positions = stretched(mesh, 0.1, 0);
    const Eigen::Vector3d across = membrane_strain(mesh, positions, 0.5 * std::numbers::pi).col(20);
    EXPECT_LT((across - Eigen::Vector3d(0, 0.1, 0)).norm(), rounding);
    const Eigen::Vector3d slanted =
        membrane_strain(mesh, positions, 0.25 * std::numbers::pi).col(20);
    EXPECT_LT((slanted - Eigen::Vector3d(0.05, 0.05, -0.1)).norm(), rounding);
}

// Bending alone: chords round the nose are shorter than their arcs by (angle per element)^2 / 24.
TEST(MembraneStrain, OfAFoldIsThatOfItsChords) {
    support::FlatBlank blank;
    const grid::SheetMesh mesh = support::flat_blank(blank);
    const double angle = 1;
    const support::Folded folded = support::fold(mesh, blank.line, blank.bend_width / angle, angle);
    const double chord = angle / blank.n_bend * angle / blank.n_bend / 24;
    const Eigen::Matrix3Xd strain = membrane_strain(mesh, folded.positions, 0);
    EXPECT_LT(strain.cwiseAbs().maxCoeff(), 1.01 * chord);
    EXPECT_GT(strain.cwiseAbs().maxCoeff(), 0.9 * chord);
}

Eigen::Matrix3Xd one(double along, double across) {
    return Eigen::Vector3d(along, across, 0);
}

TEST(MembranePaths, KeepTheCornersAndDropWhatHardlyMoves) {
    MembranePaths paths(1);
    for (const double along : {0.002, 0.004, 0.02, 0.0201, 0.04}) {
        paths.look(one(along, 0));
    }
    paths.end_step(one(0.04, 0.03));
    const std::vector<Eigen::Vector3d> increments = paths.increments(0);
    ASSERT_EQ(increments.size(), 3U);
    EXPECT_NEAR(increments[0].x(), 0.02, rounding);
    EXPECT_NEAR(increments[1].x(), 0.02, rounding);
    EXPECT_NEAR(increments[2].y(), 0.03, rounding);
    EXPECT_NEAR(paths.moved(0).y(), 0.03, rounding);
}

TEST(MembranePaths, LengthenTheLastStretchButLeaveSpringbackOut) {
    MembranePaths paths(1);
    paths.look(one(0.02, 0));
    paths.end_step(one(0.023, 0));
    EXPECT_NEAR(paths.moved(0).x(), 0.023, rounding);
    paths.end_step(one(0.020, 0)); // released
    EXPECT_NEAR(paths.moved(0).x(), 0.023, rounding);
    EXPECT_EQ(paths.increments(0).size(), 1U);
}

TEST(MembranePaths, BeginAnewWhereTheSheetIsMadeSoft) {
    MembranePaths paths(1);
    paths.end_step(one(0.1, 0));
    paths.begin_anew(one(0.098, 0));
    EXPECT_TRUE(paths.increments(0).empty());
    paths.end_step(one(0.098, 0.05));
    ASSERT_EQ(paths.increments(0).size(), 1U);
    EXPECT_NEAR(paths.increments(0)[0].x(), 0, rounding);
    EXPECT_NEAR(paths.increments(0)[0].y(), 0.05, rounding);
}

TEST(MembranePaths, FollowTheNodesThatACutLeaves) {
    MembranePaths paths(3);
    Eigen::Matrix3Xd strain = Eigen::Matrix3Xd::Zero(3, 3);
    strain.row(0) << 0.1, 0.2, 0.3;
    paths.end_step(strain);
    const std::vector<int> left{2, 0};
    paths.keep_only(left);
    ASSERT_EQ(paths.n_nodes(), 2);
    EXPECT_NEAR(paths.moved(0).x(), 0.3, rounding);
    EXPECT_NEAR(paths.moved(1).x(), 0.1, rounding);
}

} // namespace
} // namespace flangewright::findings
