#include "io/run_folder/shown_result.hpp"
#include "io/vtk/node_figures.hpp"
#include "tests/support/formed_flange.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

namespace flangewright::run_folder {
namespace {

constexpr double rounding = 1e-9; // mm

/// The made-up result with its released shape left lying somewhere, as a support on three points
/// leaves it.
process::JobResult tilted_result(const support::FlangeShape& shape) {
    process::JobResult result = support::made_up_result(shape);
    const Eigen::Matrix3d turn =
        Eigen::AngleAxisd(0.02, Eigen::Vector3d(1, 0.4, 0.3).normalized()).toRotationMatrix();
    const Eigen::Vector3d shift(2, -3, 1.5);
    shell::SheetState& state = result.steps[1].state;
    state.positions = ((turn * state.positions).colwise() + shift).eval();
    state.directors = (turn * state.directors).eval();
    result.history.back().positions = state.positions;
    return result;
}

TEST(ShownResult, SetsTheReleasedPartOnTheBlockSoThatTheGapIsTheWebLift) {
    // A straight web arched by half a millimetre stands on its ends.
    const support::FlangeShape shape{.line = outline::BendLine::straight(120), .lift = 0.5};
    const job::Job job = support::made_up_job(shape);
    const process::JobResult shown = shown_result(job, tilted_result(shape));
    const Eigen::VectorXd gap = vtk::block_gap(job, shown.mesh, shown.steps[1]);
    EXPECT_GT(gap.minCoeff(), -rounding) << "the part sinks into the block";
    // The made-up web is thinned by parts of a thousandth.
    constexpr double thinned = 1e-3;
    EXPECT_NEAR(gap.maxCoeff(), 0.5, thinned);
    EXPECT_NEAR(gap.maxCoeff(), shown.steps[1].findings.web_lift, rounding);
}

TEST(ShownResult, DoesNotDependOnHowTheSupportsHeldThePart) {
    const job::Job job = support::made_up_job();
    const process::JobResult straight = shown_result(job, support::made_up_result());
    const process::JobResult tilted = shown_result(job, tilted_result({}));
    const Eigen::Matrix3Xd difference =
        straight.steps[1].state.positions - tilted.steps[1].state.positions;
    EXPECT_LT(difference.colwise().norm().maxCoeff(), 1e-6); // the web is 250 mm long
}

TEST(ShownResult, MovesTheReleasedFramesAlongAndLeavesHeldShapesAlone) {
    const process::JobResult result = tilted_result({});
    const process::JobResult shown = shown_result(support::made_up_job(), result);
    EXPECT_EQ(shown.steps[0].state.positions, result.steps[0].state.positions);
    EXPECT_EQ(shown.history[5].positions, result.history[5].positions);
    EXPECT_EQ(shown.history.back().positions, shown.steps[1].state.positions);
    EXPECT_NE(shown.history.back().positions, result.history.back().positions);
}

TEST(ShownResult, KeepsTheShapeAndEveryFigure) {
    const process::JobResult result = tilted_result({});
    const process::JobResult shown = shown_result(support::made_up_job(), result);
    const auto length = [](const process::JobResult& of) {
        const Eigen::Matrix3Xd& at = of.steps[1].state.positions;
        return (at.col(0) - at.col(at.cols() - 1)).norm();
    };
    EXPECT_NEAR(length(shown), length(result), rounding);
    EXPECT_EQ(shown.steps[1].findings.web_lift, result.steps[1].findings.web_lift);
    EXPECT_EQ(shown.steps[1].fields.thickness, result.steps[1].fields.thickness);
    EXPECT_EQ(shown.verdict.because, result.verdict.because);
    EXPECT_EQ(shown.disagreements.size(), result.disagreements.size());
}

TEST(ShownResult, OfAStepWithoutAShapeIsThatStep) {
    process::JobResult result = support::made_up_result();
    result.steps[1].state.directors.resize(3, 0);
    const process::JobResult shown = shown_result(support::made_up_job(), result);
    EXPECT_EQ(shown.steps[1].state.positions, result.steps[1].state.positions);
}

} // namespace
} // namespace flangewright::run_folder
