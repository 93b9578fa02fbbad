// Plastic strain put into the band at the free edge.
#include "solver/process/edge_stretch.hpp"
#include "solver/process/free_balance.hpp"
#include "tests/support/small_flange.hpp"
#include "tests/support/strip_curvature.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;
using outline::Curve;

Workpiece strip(double length, int n_along) {
    return support::small_workpiece(
        support::small_flange(BendLine::straight(length), EndKind::free, EndKind::free), n_along
    );
}

TEST(EdgeStretch, ZonesCoverTheLineAndAreNoShorterThanTheFlangeIsDeep) {
    for (const double length : {5.0, 19.0, 60.0, 400.0}) {
        const Workpiece piece = strip(length, 60);
        const std::vector<EdgeZone> zones = edge_zones(piece);
        ASSERT_FALSE(zones.empty());
        EXPECT_LE(zones.size(), 8U);
        EXPECT_EQ(zones.front().from, 0);
        EXPECT_DOUBLE_EQ(zones.back().to, length);
        for (std::size_t i = 1; i < zones.size(); ++i) {
            EXPECT_EQ(zones[i].from, zones[i - 1].to);
            EXPECT_GE(zones[i].to - zones[i].from, piece.job.blank.flange_width * (1 - 1e-12));
        }
    }
    EXPECT_EQ(edge_zones(strip(5, 5)).size(), 1U);
    EXPECT_EQ(edge_zones(strip(400, 60)).size(), 8U);
}

TEST(EdgeStretch, SharesOfAllZonesMakeOneAtTheEdgeAndNothingInTheBend) {
    const Workpiece piece = strip(60, 30);
    const Eigen::MatrixXd shares = edge_shares(piece, edge_zones(piece));
    ASSERT_EQ(shares.cols(), 6);
    EXPECT_GE(shares.minCoeff(), 0);
    for (const int node : piece.mesh.free_edge) {
        EXPECT_NEAR(shares.row(node).sum(), 1, 1e-12);
    }
    for (const int node : piece.mesh.bend_end) {
        EXPECT_EQ(shares.row(node).sum(), 0);
    }
    EXPECT_DOUBLE_EQ(shares(piece.mesh.free_edge.front(), 0), 1);
    EXPECT_DOUBLE_EQ(shares(piece.mesh.free_edge[5], 0), 0.5); // at the border of two zones
}

// Nodes about an opening lie on no line and get what lines beside them get at their distance.
TEST(EdgeStretch, NodesAboutAHoleHaveTheSharesOfTheirPlace) {
    job::Job job = support::small_flange(BendLine::straight(60), EndKind::free, EndKind::free);
    job.blank.flange_width = 16;
    job.blank.openings.holes = {{30, 10, 4, false}};
    const Workpiece piece = support::small_workpiece(job, 30);
    const std::vector<EdgeZone> zones = edge_zones(piece);
    const Eigen::MatrixXd shares = edge_shares(piece, zones);
    const std::vector<int>& line = piece.mesh.station_lines.front();
    for (const int node : piece.mesh.rims.front().nodes) {
        const double distance = piece.mesh.distance[node];
        std::size_t above = 1;
        while (piece.mesh.distance[line[above]] < distance) {
            ++above;
        }
        const double from = piece.mesh.distance[line[above - 1]];
        const double part = (distance - from) / (piece.mesh.distance[line[above]] - from);
        const double expected =
            (1 - part) * shares.row(line[above - 1]).sum() + part * shares.row(line[above]).sum();
        EXPECT_NEAR(shares.row(node).sum(), expected, 0.02);
    }
}

TEST(EdgeStretch, IsPlasticFlowInTensionAlongTheLine) {
    Workpiece piece = strip(20, 4);
    constexpr double amount = 0.01;
    const Eigen::VectorXd everywhere = Eigen::VectorXd::Constant(piece.model.n_nodes(), amount);
    add_edge_strain(piece.model, everywhere, piece.state);
    const double e = std::log(1 + amount);
    for (const material::PointMemory& point : piece.state.points) {
        EXPECT_NEAR(point.plastic_mean + point.plastic_difference, e, 1e-15); // along
        EXPECT_NEAR(point.plastic_mean - point.plastic_difference, -e / 2, 1e-15); // across
        EXPECT_EQ(point.plastic_shear, 0);
        EXPECT_NEAR(point.equivalent, e, 1e-15);
    }
}

// A rolled sheet narrows by r/(1 + r) of it, at the angle of its rolling direction.
TEST(EdgeStretch, OfARolledSheetFollowsItsYieldLaw) {
    job::Job job = support::small_flange(BendLine::straight(20), EndKind::free, EndKind::free);
    job.sheet.material.yield = support::hill48(0.65, 0.83, 0.45);
    job.sheet.rolling_direction = 0.5 * std::numbers::pi;
    Workpiece piece = support::small_workpiece(job, 4);
    const Eigen::VectorXd everywhere = Eigen::VectorXd::Constant(piece.model.n_nodes(), 0.01);
    add_edge_strain(piece.model, everywhere, piece.state);
    const double e = std::log(1.01);
    const double stress = std::sqrt(0.45 * (1 + 0.65) / (0.65 * (1 + 0.45))); // over the curve's
    for (const material::PointMemory& point : piece.state.points) {
        const double across = point.plastic_mean - point.plastic_difference;
        EXPECT_NEAR(point.plastic_mean + point.plastic_difference, e, 1e-15);
        EXPECT_NEAR(across, -0.45 / 1.45 * e, 1e-15);
        EXPECT_NEAR(point.equivalent, stress * e, 1e-15); // equal work
    }
}

TEST(EdgeStretch, OfTheWholeSheetMakesItLongerNarrowerThinnerByThat) {
    Workpiece piece = strip(20, 4);
    constexpr double amount = 1e-4; // in goes: yields nowhere
    const Eigen::VectorXd everywhere = Eigen::VectorXd::Constant(piece.model.n_nodes(), amount);
    const Eigen::Matrix3Xd before = piece.state.positions;
    add_edge_strain(piece.model, everywhere, piece.state);
    hold_present_shape(piece);
    ASSERT_EQ(balance_free(piece, job::StepKind::release, {}, {}, {}).reason, StopReason::done);
    const auto span = [](const Eigen::Matrix3Xd& at, int axis) {
        return at.row(axis).maxCoeff() - at.row(axis).minCoeff();
    };
    EXPECT_NEAR(span(piece.state.positions, 0) / span(before, 0) - 1, amount, 0.001 * amount);
    EXPECT_NEAR(span(piece.state.positions, 1) / span(before, 1) - 1, -amount / 2, 0.001 * amount);
    EXPECT_NEAR(piece.state.fibres.front().mean - 1, -amount / 2, 0.001 * amount);
}

// Closed form (derived here, linear elasticity of a beam): strain that rises evenly from 0 to e
// over the outer width b of a strip of width w is e b / 2 in sum, b / 3 from the edge; the straight
// line nearest to it has the slope e b / 2 (w / 2 - b / 3) / (w^3 / 12).
TEST(EdgeStretch, CurvesAFlatStripByBeamTheory) {
    Workpiece piece = strip(100, 100);
    const Eigen::MatrixXd shares = edge_shares(piece, edge_zones(piece));
    const double w = piece.job.blank.web_width + piece.job.blank.flange_width;
    double begin = 0; // of the band: the last line of nodes without a share
    for (const int node : piece.mesh.station_lines.front()) {
        begin = shares.row(node).sum() == 0 ? piece.mesh.distance[node] : begin;
    }
    const double b = piece.job.blank.flange_width - begin;
    ASSERT_GT(b, 1);
    ASSERT_LT(b, 4);
    constexpr double e = 1e-5;
    add_edge_strain(piece.model, e * shares.rowwise().sum(), piece.state);
    hold_present_shape(piece);
    ASSERT_EQ(balance_free(piece, job::StepKind::release, {}, {}, {}).reason, StopReason::done);
    const double expected = 6 * e * b * (w / 2 - b / 3) / (w * w * w);
    EXPECT_NEAR(std::abs(support::edge_curvature(piece)) / expected, 1, 0.01);
}

} // namespace
} // namespace flangewright::process
