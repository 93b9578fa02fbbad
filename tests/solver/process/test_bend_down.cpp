// The bend-down step on small coarse flanges: what any run must fulfil.
#include "solver/process/bend_down.hpp"
#include "solver/process/release.hpp"
#include "tests/support/small_flange.hpp"
#include "tests/support/solid_cases.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;
using outline::Curve;

void expect_finite(const shell::SheetState& state) {
    EXPECT_TRUE(state.positions.allFinite());
    EXPECT_TRUE(state.directors.allFinite());
    for (const material::PointMemory& point : state.points) {
        ASSERT_TRUE(std::isfinite(point.equivalent));
    }
}

TEST(BendDown, BringsTheFlangeDownWithoutRunningIntoTheTools) {
    const support::SolidFigures figures = support::run_solid_case(
        support::SolidCase::s1, {.n_round_nose = 10, .n_layers = 8, .is_released = false}
    );
    EXPECT_EQ(figures.bend_down.reason, StopReason::done);
    EXPECT_NEAR(figures.angle_held, 90, 3); // the wiper's play of 0.4 mm leaves it a little open
    EXPECT_LT(figures.bend_down.penetration, 0.01); // 1 % of the thickness of 1 mm
    EXPECT_LE(figures.bend_down.residual, equilibrium::NewtonLimits{}.tolerance);
}

TEST(BendDown, LeafTurnsTheFlangeToItsAngle) {
    job::Job job =
        support::small_flange(BendLine::straight(1), EndKind::continues, EndKind::continues);
    job.drive.kind = job::DriveKind::leaf;
    job.drive.clearance = 1.05;
    job.drive.angle = 0.25 * std::numbers::pi;
    Workpiece piece = support::small_workpiece(job, 1);
    const StepReport report = bend_down(piece, {}, {}, {});
    EXPECT_EQ(report.reason, StopReason::done);
    EXPECT_NEAR(report.angle_reached, job.drive.angle, 0.05);
    EXPECT_LT(report.penetration, 0.05); // the leaf's soft start
}

TEST(BendDown, WiperStopsAtTheAngleAskedFor) {
    for (const double angle : {0.3, 0.9}) {
        job::Job job =
            support::small_flange(BendLine::straight(1), EndKind::continues, EndKind::continues);
        job.drive.angle = angle;
        Workpiece piece = support::small_workpiece(job, 1);
        const StepReport report = bend_down(piece, {}, {}, {});
        EXPECT_EQ(report.reason, StopReason::done);
        EXPECT_NEAR(report.angle_reached, angle, 0.004); // a quarter of a degree
        EXPECT_LT(report.share_done, 1);
    }
}

TEST(BendDown, KeepsTheWebFlatUnderTheBacking) {
    Workpiece piece = support::small_workpiece(
        support::small_flange(BendLine::straight(1), EndKind::continues, EndKind::continues), 1
    );
    const StepReport report = bend_down(piece, {}, {}, {});
    ASSERT_EQ(report.reason, StopReason::done);
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        if (piece.mesh.distance[node] <= 0) {
            EXPECT_DOUBLE_EQ(piece.state.positions(2, node), 0.5);
        }
    }
    EXPECT_GT(piece.held_by.on_positions.norm(), 1); // tools and clamp push
}

// Equilibrium of the held part: tools and clamp together neither push nor turn it along the free
// directions (up and across; along the line symmetry carries).
TEST(BendDown, ForcesOfToolsAndClampBalance) {
    // Fibre heights follow the thinning of the last accepted increment, so what is read off the
    // state lags the balance by one increment's thinning.
    constexpr double lag = 2e-3;
    Workpiece piece = support::small_workpiece(
        support::small_flange(BendLine::straight(1), EndKind::continues, EndKind::continues), 1
    );
    ASSERT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    const Eigen::Vector3d sum = piece.held_by.on_positions.rowwise().sum();
    const double size = piece.held_by.on_positions.colwise().norm().sum();
    EXPECT_LT(std::abs(sum.y()), lag * size);
    EXPECT_LT(std::abs(sum.z()), lag * size);
    double turn = 0;
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        const Eigen::Vector3d at = piece.state.positions.col(node);
        turn += at.cross(Eigen::Vector3d(piece.held_by.on_positions.col(node))).x();
        turn += Eigen::Vector3d(piece.state.directors.col(node))
                    .cross(Eigen::Vector3d(piece.held_by.on_directors.col(node)))
                    .x();
    }
    EXPECT_LT(std::abs(turn), lag * size * 10); // arms of some 10 mm
}

TEST(BendDown, StopsWhenAskedAndLeavesAFiniteState) {
    Workpiece piece = support::small_workpiece(
        support::small_flange(BendLine::straight(1), EndKind::continues, EndKind::continues), 1
    );
    std::stop_source source;
    int n_shapes = 0;
    Monitor monitor;
    monitor.stop = source.get_token();
    const StepReport report = bend_down(piece, {}, monitor, [&](const Workpiece&, double) {
        if (++n_shapes == 5) {
            source.request_stop();
        }
    });
    EXPECT_EQ(report.reason, StopReason::stop_requested);
    EXPECT_EQ(report.n_increments, 5);
    EXPECT_GT(report.share_done, 0);
    EXPECT_LT(report.share_done, 1);
    expect_finite(piece.state);
    // What was reached is held by tools and can be let go.
    EXPECT_EQ(release(piece, {}, {}).reason, StopReason::done);
    expect_finite(piece.state);
}

TEST(BendDown, TellsHowFarItHasCome) {
    Workpiece piece = support::small_workpiece(
        support::small_flange(BendLine::straight(1), EndKind::continues, EndKind::continues), 1
    );
    std::vector<Progress> told;
    Monitor monitor;
    monitor.on_progress = [&told](const Progress& progress) { told.push_back(progress); };
    const StepReport report = bend_down(piece, {}, monitor, {});
    ASSERT_EQ(static_cast<int>(told.size()), report.n_increments);
    EXPECT_EQ(told.front().step, "bend-down");
    EXPECT_GE(told.back().share_done, 0.9);
    for (const Progress& progress : told) {
        EXPECT_GE(progress.share_done, 0);
        EXPECT_LE(progress.share_done, 1);
    }
}

// Mirror images stay mirror images: a free-ended arc, bent and released.
TEST(BendDown, OfASymmetricBlankIsSymmetric) {
    constexpr double asymmetry = 1e-4; // mm; Newton's tolerance of 1e-6, grown along the path
    Workpiece piece = support::small_workpiece(
        support::small_flange(BendLine::arc(40, 0.2, Curve::concave), EndKind::free, EndKind::free),
        4
    );
    ASSERT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    const auto& lines = piece.mesh.station_lines;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto& mirrored = lines[lines.size() - 1 - i];
        for (std::size_t j = 0; j < lines[i].size(); ++j) {
            const Eigen::Vector3d one = piece.state.positions.col(lines[i][j]);
            const Eigen::Vector3d other = piece.state.positions.col(mirrored[j]);
            EXPECT_NEAR(one.x(), -other.x(), asymmetry);
            EXPECT_NEAR(one.y(), other.y(), asymmetry);
            EXPECT_NEAR(one.z(), other.z(), asymmetry);
        }
    }
}

} // namespace
} // namespace flangewright::process
