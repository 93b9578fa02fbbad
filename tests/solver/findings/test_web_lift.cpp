#include "solver/findings/web_lift.hpp"
#include "tests/support/flange_job.hpp"
#include "tests/support/flat_blank.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::findings {
namespace {

using Eigen::Vector3d;
using job::EndKind;
using outline::BendLine;
using outline::Curve;

/// A folded strip whose web can be lifted by a function of x and y.
struct Part {
    BendLine line = BendLine::straight(60);
    grid::SheetMesh mesh = support::flat_blank({.line = line, .bend_width = 5.5});
    support::Folded folded = support::fold(mesh, line, 3.5, 90 * support::degree);
    Eigen::VectorXd thickness = Eigen::VectorXd::Ones(mesh.n_nodes());

    template <typename Lift>
    void lift(Lift height) {
        for (int node = 0; node < mesh.n_nodes(); ++node) {
            const Vector3d flat = mesh.positions.col(node);
            folded.positions(2, node) += height(flat.x(), flat.y());
        }
    }

    [[nodiscard]] WebLift set(const job::Blank& blank = {}) const {
        return set_on_block(
            mesh, {folded.positions, folded.directors, thickness}, free_tilts(blank)
        );
    }
};

TEST(WebLift, IsNothingForAFlatWeb) {
    const Part part;
    const WebLift lift = part.set();
    EXPECT_NEAR(lift.largest, 0, 1e-12);
    EXPECT_NEAR(lift.plane.point.z(), -0.5, 1e-12); // half the thickness below the mid-surface
    EXPECT_EQ(lift.supports.size(), 3U);
    EXPECT_EQ(lift.web_nodes.size(), 7U * 13U);
}

TEST(WebLift, IsNothingForARigidlyTurnedPart) {
    Part part;
    const Eigen::Matrix3d turn =
        Eigen::AngleAxisd(0.05, Vector3d(1, -2, 0.3).normalized()).toRotationMatrix();
    part.folded.positions = (turn * part.folded.positions).eval();
    part.folded.directors = (turn * part.folded.directors).eval();
    const WebLift lift = part.set();
    EXPECT_NEAR(lift.largest, 0, 1e-11);
    EXPECT_NEAR((lift.plane.normal - turn.col(2)).norm(), 0, 1e-11);
    EXPECT_NEAR(lift.slopes.x(), -turn(0, 2) / turn(2, 2), 1e-11);
    EXPECT_NEAR(lift.slopes.y(), -turn(1, 2) / turn(2, 2), 1e-11);
}

// A web arched along the line stands on its ends: the gap is the arch's rise, k (L/2)^2.
TEST(WebLift, IsTheRiseOfAnArchedWeb) {
    Part part;
    part.lift([](double x, double) { return -0.001 * x * x; });
    EXPECT_NEAR(part.set().largest, 0.001 * 30 * 30, 1e-9);
}

// Opposite curvature: the web stands on its middle and tips to the next node (5 mm on). The far
// end then lifts by k (30^2 + 5 * 30), measured square to the face that rises by 5 k.
TEST(WebLift, TipsAWebThatStandsOnItsMiddle) {
    Part part;
    part.lift([](double x, double) { return 0.001 * x * x; });
    EXPECT_NEAR(part.set().largest, 0.001 * (30 * 30 + 5 * 30) / std::hypot(1, 0.005), 1e-9);
}

// Seen from a plane of symmetry at the start, the web may not tilt along the line.
TEST(WebLift, DoesNotTiltOutOfAPlaneOfSymmetry) {
    Part part;
    part.lift([](double x, double y) { return 0.01 * (x + 30) + 0.02 * y; });
    EXPECT_NEAR(part.set().largest, 0, 1e-10);
    const WebLift half = part.set({.line = part.line, .start = EndKind::continues});
    EXPECT_NEAR(half.largest, 0.6, 1e-3); // the far end; the face slants by 0.02
    EXPECT_NEAR(half.slopes.x(), 0, 1e-12);
    EXPECT_NEAR(half.slopes.y(), 0.02, 1e-9);
}

TEST(WebLift, AllowsTheTiltsThatSymmetryAllows) {
    const BendLine arc = BendLine::arc(80, 1, Curve::concave);
    const BendLine straight = BendLine::straight(60);
    EXPECT_EQ(free_tilts({.line = arc}).size(), 2U);
    EXPECT_TRUE(
        free_tilts({.line = arc, .start = EndKind::continues, .end = EndKind::continues}).empty()
    );
    const TiltDirections both_ends =
        free_tilts({.line = straight, .start = EndKind::continues, .end = EndKind::continues});
    ASSERT_EQ(both_ends.size(), 1U);
    EXPECT_NEAR((both_ends[0] - Vector3d::UnitY()).norm(), 0, 1e-12);
    const TiltDirections far_end = free_tilts({.line = arc, .end = EndKind::continues});
    ASSERT_EQ(far_end.size(), 1U);
    EXPECT_NEAR(far_end[0].dot(arc.frame(80).tangent), 0, 1e-12);
}

TEST(WebLift, OfAnSCurveTiltsOnlyBetweenParallelPlanesOfSymmetry) {
    const BendLine even = BendLine::chain({{50, 1.0 / 100}, {50, -1.0 / 100}});
    const BendLine uneven = BendLine::chain({{50, 1.0 / 100}, {40, -1.0 / 100}});
    const auto between = [](const BendLine& line) {
        return free_tilts({.line = line, .start = EndKind::continues, .end = EndKind::continues});
    };
    EXPECT_EQ(between(even).size(), 1U);
    EXPECT_TRUE(between(uneven).empty());
}

TEST(WebLift, CountsTheBlockFaceNotTheMiddle) {
    // Half as thick at one web corner: the block face there stands a quarter of t higher.
    Part part;
    for (const int node : part.mesh.station_lines[6]) {
        part.thickness(node) = 0.5;
    }
    EXPECT_NEAR(part.set().largest, 0.25, 1e-12);
}

} // namespace
} // namespace flangewright::findings
