// The whole run: what it leaves, and what it keeps when it is stopped.
#include "solver/process/run_job.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;

job::Job quick_slice() {
    job::Job job =
        support::small_flange(BendLine::straight(1), EndKind::continues, EndKind::continues);
    job.accuracy = job::Accuracy::quick;
    return job;
}

TEST(RunJob, LeavesStatesFieldsAndFindingsOfEachStep) {
    const Result<JobResult> run = run_job(quick_slice(), {.n_threads = 1, .n_frames = 6}, {});
    ASSERT_TRUE(run.has_value());
    EXPECT_EQ(run->reason, StopReason::done);
    ASSERT_EQ(run->steps.size(), 2U);
    EXPECT_FALSE(run->steps.front().findings.springback.has_value());
    ASSERT_TRUE(run->steps.back().findings.springback.has_value());
    EXPECT_GT(run->steps.back().findings.springback->mean, 0);
    EXPECT_GE(run->history.size(), 6U);
    for (const StepResult& step : run->steps) {
        EXPECT_EQ(step.state.positions.cols(), run->mesh.n_nodes());
        EXPECT_TRUE(step.fields.thickness.allFinite());
        EXPECT_TRUE(step.fields.major_outer_face.allFinite());
        EXPECT_TRUE(step.fields.stress_block_face.allFinite());
        EXPECT_LT(step.report.penetration, 0.01);
    }
    EXPECT_EQ(run->figures.n_degrees_of_freedom, 5 * run->mesh.n_nodes());
    EXPECT_GT(run->figures.n_iterations, run->figures.n_increments);
    EXPECT_GT(run->figures.seconds, 0);
}

TEST(RunJob, KeepsWhatWasReachedWhenItIsStopped) {
    std::stop_source source;
    Monitor monitor;
    monitor.stop = source.get_token();
    monitor.on_progress = [&source](const Progress& progress) {
        if (progress.n_increments == 4) {
            source.request_stop();
        }
    };
    const Result<JobResult> run =
        run_job(quick_slice(), {.n_threads = 1, .measure_bare_refactor = false}, monitor);
    ASSERT_TRUE(run.has_value());
    EXPECT_EQ(run->reason, StopReason::stop_requested);
    ASSERT_EQ(run->steps.size(), 1U);
    EXPECT_TRUE(run->steps.front().state.positions.allFinite());
    EXPECT_TRUE(run->steps.front().fields.thickness.allFinite());
    EXPECT_GT(run->steps.front().report.share_done, 0);
}

TEST(RunJob, GivesTheSameOnOneThreadAndOnTwo) {
    job::Job job = quick_slice();
    job.steps = {job::StepKind::bend_down};
    const RunOptions one{.n_threads = 1, .n_frames = 1, .measure_bare_refactor = false};
    RunOptions two = one;
    two.n_threads = 2;
    const Result<JobResult> alone = run_job(job, one, {});
    const Result<JobResult> shared = run_job(job, two, {});
    ASSERT_TRUE(alone.has_value() && shared.has_value());
    EXPECT_EQ(alone->steps.front().state.positions, shared->steps.front().state.positions);
}

} // namespace
} // namespace flangewright::process
