// What the edge's zones do to the web, by linear solves.
#include "solver/process/cure_search.hpp"
#include "solver/process/web_reading.hpp"
#include "tests/support/flat_web_part.hpp"

#include <gtest/gtest.h>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;
using outline::Curve;

TEST(WebReading, SaysHowFarTheWebIsOffItsPlane) {
    Workpiece piece = support::small_workpiece(
        support::small_flange(BendLine::straight(30), EndKind::free, EndKind::free), 6
    );
    EXPECT_NEAR(read_web(piece).lift, 0, 1e-12);
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        const double x = piece.state.positions(0, node) - 15;
        piece.state.positions(2, node) -= 0.002 * x * x; // an arch, 0.45 mm high
    }
    const WebReading web = read_web(piece);
    EXPECT_NEAR(web.lift, 0.45, 1e-3);
    EXPECT_EQ(web.gaps.maxCoeff(), web.lift);
    EXPECT_EQ(web.nodes.size(), static_cast<std::size_t>(web.gaps.size()));
    const FlatFit fit = fit_of(piece, web);
    EXPECT_EQ(fit.planes.cols(), 3);
    EXPECT_GT(fit.weight.minCoeff(), 0);
}

// Tilting out of a plane of symmetry is no way to lie flat.
TEST(WebReading, TiltsOnlyWherePlanesOfSymmetryLetIt) {
    const auto n_planes = [](EndKind start, EndKind end) {
        const Workpiece piece = support::small_workpiece(
            support::small_flange(BendLine::arc(30, 0.5, Curve::concave), start, end), 4
        );
        return fit_of(piece, read_web(piece)).planes.cols();
    };
    EXPECT_EQ(n_planes(EndKind::free, EndKind::free), 3);
    EXPECT_EQ(n_planes(EndKind::free, EndKind::continues), 2);
    EXPECT_EQ(n_planes(EndKind::continues, EndKind::continues), 1);
}

// A tiny stretch really worked in moves the web as the linear solves say, plane aside.
TEST(WebReading, InfluenceIsWhatASmallStretchDoes) {
    const BendLine line = BendLine::arc(40, 0.7, Curve::concave);
    Workpiece piece =
        support::flat_web_part(support::small_flange(line, EndKind::free, EndKind::continues), 9);
    const std::vector<EdgeZone> zones = edge_zones(piece);
    ASSERT_EQ(zones.size(), 3U);
    const Eigen::MatrixXd shares = edge_shares(piece, zones);
    const WebReading before = read_web(piece);
    const Eigen::MatrixXd influence = web_influence(piece, before, shares);
    const FlatFit fit = fit_of(piece, before);
    const shell::SheetState start = piece.state;
    constexpr double small = 1e-4;
    for (Eigen::Index zone = 0; zone < 3; ++zone) {
        piece.state = start;
        ASSERT_TRUE(work_edge({piece, shares, {}}, small * Eigen::VectorXd::Unit(3, zone)));
        const Eigen::VectorXd came = out_of_flat(fit, read_web(piece).gaps - before.gaps);
        const Eigen::VectorXd expected = out_of_flat(fit, small * influence.col(zone));
        ASSERT_GT(expected.norm(), 1e-5); // mm
        EXPECT_LT((came - expected).norm(), 0.02 * expected.norm());
    }
}

} // namespace
} // namespace flangewright::process
