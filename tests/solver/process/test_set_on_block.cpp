// A released part pressed flat again.
#include "solver/process/bend_down.hpp"
#include "solver/process/release.hpp"
#include "solver/process/set_on_block.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;
using outline::Curve;

Workpiece arc_piece() {
    return support::small_workpiece(
        support::small_flange(
            BendLine::arc(30, 0.5, Curve::concave), EndKind::free, EndKind::continues
        ),
        4
    );
}

// Largest distance of the web's block face from the block, mm.
double off_the_block(const Workpiece& piece) {
    const Eigen::VectorXd half = shell::half_thickness(piece.model, piece.state);
    double largest = 0;
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        if (piece.mesh.distance[node] <= 1e-9) {
            largest = std::max(largest, std::abs(piece.state.positions(2, node) - half[node]));
        }
    }
    return largest;
}

TEST(SetOnBlock, LeavesAFlatSheetWhereItIs) {
    Workpiece piece = arc_piece();
    const Eigen::Matrix3Xd before = piece.state.positions;
    const StepReport report = set_on_block(piece, {}, {});
    EXPECT_EQ(report.reason, StopReason::done);
    EXPECT_LT((piece.state.positions - before).norm(), 1e-6);
    EXPECT_LT(piece.held_by.on_positions.norm(), 1e-3);
}

TEST(SetOnBlock, MakesTheWebOfASprungPartFlat) {
    Workpiece piece = arc_piece();
    ASSERT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    ASSERT_EQ(release(piece, {}, {}).reason, StopReason::done);
    const double off = off_the_block(piece);
    ASSERT_GT(off, 0.01);
    const StepReport report = set_on_block(piece, {}, {});
    EXPECT_EQ(report.reason, StopReason::done);
    EXPECT_LT(off_the_block(piece), 5e-4); // the sheet's elastic thinning, on which it was set
    EXPECT_GT(piece.held_by.on_positions.norm(), 1); // N
}

// All is elastic on the way: pressed and let go again, the part is as it was.
TEST(SetOnBlock, LeavesNothingBehindWhenReleasedAgain) {
    Workpiece piece = arc_piece();
    ASSERT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    ASSERT_EQ(release(piece, {}, {}).reason, StopReason::done);
    const double angle = driven_angle(piece);
    const Eigen::Matrix3Xd before = piece.state.positions;
    ASSERT_EQ(set_on_block(piece, {}, {}).reason, StopReason::done);
    ASSERT_EQ(release(piece, {}, {}).reason, StopReason::done);
    // Distances within the part, since it may lie elsewhere now.
    const Eigen::Index last = before.cols() - 1;
    const double was = (before.col(0) - before.col(last)).norm();
    const double is = (piece.state.positions.col(0) - piece.state.positions.col(last)).norm();
    EXPECT_NEAR(is, was, 1e-3);
    EXPECT_NEAR(driven_angle(piece), angle, 0.02);
}

TEST(SetOnBlock, StopsWhenAsked) {
    Workpiece piece = arc_piece();
    std::stop_source source;
    source.request_stop();
    Monitor monitor;
    monitor.stop = source.get_token();
    EXPECT_EQ(set_on_block(piece, {}, monitor).reason, StopReason::stop_requested);
}

} // namespace
} // namespace flangewright::process
