#include "solver/findings/edge_strain.hpp"
#include "tests/support/flange_job.hpp"
#include "tests/support/flat_blank.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::findings {
namespace {

using job::EndKind;

constexpr double rounding = 1e-12;

// Source: stretch-flange-closed-forms: e = ln(R / ri). The solid section model A2 has
// radii 59.5, 51.
TEST(EdgeStrain, IsTheLogOfTheRadiusRatioOnAnIdealRing) {
    const job::Job job = support::ring_job();
    const double right_angle = 90 * support::degree;
    const grid::SheetMesh mesh = support::flat_blank(
        {.line = job.blank.line, .bend_width = 3.5 * right_angle, .flange_width = 12}
    );
    const support::Folded folded = support::fold(mesh, job.blank.line, 3.5, right_angle);
    for (const EndKind kind : {EndKind::free, EndKind::continues}) {
        const Eigen::VectorXd strain = edge_strain(mesh, folded.positions, {kind, kind});
        EXPECT_EQ(strain.size(), static_cast<Eigen::Index>(mesh.free_edge.size()));
        EXPECT_NEAR((strain.array() - std::log(59.5 / 51)).abs().maxCoeff(), 0, rounding);
    }
}

TEST(EdgeStrain, IsZeroUnderARigidMotionAndNegativeWhenPressed) {
    const grid::SheetMesh mesh = support::flat_blank({});
    Eigen::Matrix3Xd moved = mesh.positions;
    moved.row(0) = -mesh.positions.row(1).array() + 3;
    moved.row(1) = mesh.positions.row(0);
    EXPECT_NEAR(edge_strain(mesh, moved, {}).cwiseAbs().maxCoeff(), 0, rounding);
    moved = 0.9 * mesh.positions;
    EXPECT_NEAR(edge_strain(mesh, moved, {}).maxCoeff(), std::log(0.9), rounding);
}

/// A straight edge along x, 60 mm, stretched so that its strain grows by 0.002 a mm from 0 at the
/// start; exact between nodes.
struct Graded {
    grid::SheetMesh mesh = support::flat_blank({});
    Eigen::Matrix3Xd positions = mesh.positions;

    Graded() {
        double x = 0;
        for (std::size_t i = 1; i < mesh.free_edge.size(); ++i) {
            const int a = mesh.free_edge[i - 1];
            const int b = mesh.free_edge[i];
            const double middle = 0.5 * (mesh.station(a) + mesh.station(b));
            positions(0, a) = x;
            x += (mesh.station(b) - mesh.station(a)) * std::exp(0.002 * middle);
            positions(0, b) = x;
        }
    }
};

TEST(EdgeStrain, CarriesAGradientOnToAFreeEnd) {
    const Graded edge;
    const Eigen::VectorXd strain = edge_strain(edge.mesh, edge.positions, {});
    for (Eigen::Index i = 0; i < strain.size(); ++i) {
        EXPECT_NEAR(strain(i), 0.002 * 5 * static_cast<double>(i), rounding);
    }
}

TEST(EdgeStrain, MirrorsTheLastPieceWhereThePartContinues) {
    const Graded edge;
    const Eigen::VectorXd strain =
        edge_strain(edge.mesh, edge.positions, {EndKind::continues, EndKind::free});
    EXPECT_NEAR(strain(0), 0.002 * 2.5, rounding);
    EXPECT_NEAR(strain(12), 0.002 * 60, rounding);
    const Eigen::VectorXd other =
        edge_strain(edge.mesh, edge.positions, {EndKind::free, EndKind::continues});
    EXPECT_NEAR(other(0), 0, rounding);
    EXPECT_NEAR(other(12), 0.002 * 57.5, rounding);
}

TEST(EdgeStrain, WorksOnASinglePiece) {
    const grid::SheetMesh mesh = support::flat_blank({.n_along = 1});
    const Eigen::Matrix3Xd positions = 1.1 * mesh.positions;
    const Eigen::VectorXd strain = edge_strain(mesh, positions, {});
    EXPECT_NEAR(strain(0), std::log(1.1), rounding);
    EXPECT_NEAR(strain(1), std::log(1.1), rounding);
}

} // namespace
} // namespace flangewright::findings
