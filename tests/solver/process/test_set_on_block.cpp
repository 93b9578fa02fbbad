// A released part pressed flat again.
#include "solver/process/bend_down.hpp"
#include "solver/process/release.hpp"
#include "solver/process/set_on_block.hpp"
#include "tests/support/small_flange.hpp"

#include <Eigen/Geometry>
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

// Where a loose part lies says nothing: it is put where it was clamped.
TEST(SetOnBlock, TakesAPartThatHasDriftedAsOneThatHasNot) {
    const job::Job job =
        support::small_flange(BendLine::arc(30, 0.5, Curve::concave), EndKind::free, EndKind::free);
    Workpiece stayed = support::small_workpiece(job, 4);
    Workpiece drifted = support::small_workpiece(job, 4);
    for (Workpiece* piece : {&stayed, &drifted}) {
        ASSERT_EQ(bend_down(*piece, {}, {}, {}).reason, StopReason::done);
        ASSERT_EQ(release(*piece, {}, {}).reason, StopReason::done);
    }
    const Eigen::Matrix3d turn =
        Eigen::AngleAxisd(0.03, Eigen::Vector3d(0.2, 0.1, 1).normalized()).toRotationMatrix();
    drifted.state.positions = (turn * drifted.state.positions).colwise()
        + Eigen::Vector3d(0.4, -0.7, 0.2); // into the nose
    drifted.state.directors = turn * drifted.state.directors;
    ASSERT_EQ(set_on_block(stayed, {}, {}).reason, StopReason::done);
    ASSERT_EQ(set_on_block(drifted, {}, {}).reason, StopReason::done);
    EXPECT_LT((stayed.state.positions - drifted.state.positions).cwiseAbs().maxCoeff(), 1e-4);
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

// Between all nodes of the web's edge and of the free edge: the part may lie elsewhere.
Eigen::MatrixXd distances_web_to_edge(const Workpiece& piece) {
    const std::vector<int>& web = piece.mesh.web_edge;
    const std::vector<int>& edge = piece.mesh.free_edge;
    Eigen::MatrixXd distances(web.size(), edge.size());
    for (std::size_t i = 0; i < web.size(); ++i) {
        for (std::size_t j = 0; j < edge.size(); ++j) {
            distances(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) =
                (piece.state.positions.col(web[i]) - piece.state.positions.col(edge[j])).norm();
        }
    }
    return distances;
}

// mm. Locked-in stress stands near yield in places, so that pressing moves them by microns.
constexpr double a_little_yield = 0.005;

// All but that is elastic on the way: pressed and let go again, the part is as it was.
TEST(SetOnBlock, LeavesNothingBehindWhenReleasedAgain) {
    Workpiece piece = arc_piece();
    ASSERT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    ASSERT_EQ(release(piece, {}, {}).reason, StopReason::done);
    const Eigen::MatrixXd before = distances_web_to_edge(piece);
    ASSERT_EQ(set_on_block(piece, {}, {}).reason, StopReason::done);
    ASSERT_GT((distances_web_to_edge(piece) - before).cwiseAbs().maxCoeff(), 0.01);
    ASSERT_EQ(release(piece, {}, {}).reason, StopReason::done);
    EXPECT_LT((distances_web_to_edge(piece) - before).cwiseAbs().maxCoeff(), a_little_yield);
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
