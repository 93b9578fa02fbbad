// The release step: forces go to zero, a part without stress stays where it is.
#include "solver/process/bend_down.hpp"
#include "solver/process/release.hpp"
#include "solver/process/rigid_supports.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;
using outline::Curve;

Workpiece slice() {
    return support::small_workpiece(
        support::small_flange(BendLine::straight(1), EndKind::continues, EndKind::continues), 1
    );
}

TEST(Release, OfAnUnloadedSheetChangesNothing) {
    for (const EndKind end : {EndKind::free, EndKind::continues}) {
        Workpiece piece = support::small_workpiece(
            support::small_flange(BendLine::arc(40, 0.3, Curve::concave), EndKind::free, end), 3
        );
        const shell::SheetState before = piece.state;
        const StepReport report = release(piece, {}, {});
        EXPECT_EQ(report.reason, StopReason::done);
        EXPECT_LT((piece.state.positions - before.positions).norm(), 1e-9);
        EXPECT_LT((piece.state.directors - before.directors).norm(), 1e-9);
    }
}

// What supports have to bring up when nothing else holds the part, N.
double force_at_supports(Workpiece& piece) {
    equilibrium::Problem problem = problem_of(piece);
    const std::vector<bool> symmetry = problem.is_fixed;
    add_rigid_supports(piece, problem.is_fixed);
    const equilibrium::Balance balance =
        piece.system->balance(problem, equilibrium::shape_of(piece.state, piece.node_axes), false);
    double squared = 0;
    for (Eigen::Index dof = 0; dof < balance.residual.size(); ++dof) {
        const auto at = static_cast<std::size_t>(dof);
        if (problem.is_fixed[at] && !symmetry[at]) {
            squared += balance.residual[dof] * balance.residual[dof];
        }
    }
    return std::sqrt(squared);
}

TEST(Release, LeavesNoForceOnThePart) {
    Workpiece piece = slice();
    ASSERT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    const double before = force_at_supports(piece);
    const double pushed = piece.held_by.on_positions.norm();
    const double angle = driven_angle(piece);
    const StepReport report = release(piece, {}, {});
    EXPECT_EQ(report.reason, StopReason::done);
    EXPECT_LE(report.residual, 1e-6);
    ASSERT_GT(before, 0.02 * pushed); // with the tools just gone, the three points would carry this
    EXPECT_LT(force_at_supports(piece), 0.01 * before);
    EXPECT_EQ(piece.held_by.on_positions.norm(), 0);
    EXPECT_LT(driven_angle(piece), angle); // it springs open
    EXPECT_GT(driven_angle(piece), 0.8 * angle);
}

TEST(Release, StopsWhenAsked) {
    Workpiece piece = slice();
    ASSERT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    const shell::SheetState before = piece.state;
    std::stop_source source;
    source.request_stop();
    Monitor monitor;
    monitor.stop = source.get_token();
    EXPECT_EQ(release(piece, {}, monitor).reason, StopReason::stop_requested);
    EXPECT_EQ(piece.state.positions, before.positions);
}

// Released twice, the part does not move any more, but for the last increment's thinning, which the
// fibre heights follow one increment later: well below a micron a node.
TEST(Release, IsDoneOnce) {
    Workpiece piece = slice();
    ASSERT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    ASSERT_EQ(release(piece, {}, {}).reason, StopReason::done);
    const Eigen::Matrix3Xd positions = piece.state.positions;
    ASSERT_EQ(release(piece, {}, {}).reason, StopReason::done);
    EXPECT_LT((piece.state.positions - positions).colwise().norm().maxCoeff(), 1e-4);
}

} // namespace
} // namespace flangewright::process
