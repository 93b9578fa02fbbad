// A run that is left and taken up again ends as if it had never stopped.
#include "solver/process/run_keeper.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;

job::Job quick_slice(job::DriveKind kind, double friction = 0) {
    job::Job job =
        support::small_flange(BendLine::straight(1), EndKind::continues, EndKind::continues);
    job.accuracy = job::Accuracy::quick;
    job.drive.kind = kind;
    job.block.friction = friction;
    return job;
}

struct Watched {
    JobResult result;
    std::vector<RunState> states;
};

// Keeps the state after every increment.
Watched watched_run(const job::Job& job) {
    Watched watched;
    RunOptions options{.n_threads = 1, .n_frames = 6, .measure_bare_refactor = false};
    options.keep_state = [&watched](const RunState& state) { watched.states.push_back(state); };
    options.seconds_between_states = 0;
    Result<JobResult> run = run_job(job, options, {});
    check(run.has_value(), "a small flange runs");
    watched.result = std::move(*run);
    return watched;
}

Result<JobResult> taken_up(const job::Job& job, const RunState& state) {
    RunOptions options{.n_threads = 1, .n_frames = 6, .measure_bare_refactor = false};
    options.begin_from = &state;
    return run_job(job, options, {});
}

// To the last bit: a resumed run does the same sums.
void expect_same(const JobResult& resumed, const JobResult& whole) {
    ASSERT_EQ(resumed.steps.size(), whole.steps.size());
    for (std::size_t i = 0; i < whole.steps.size(); ++i) {
        EXPECT_EQ(resumed.steps[i].state.positions, whole.steps[i].state.positions);
        EXPECT_EQ(resumed.steps[i].fields.thickness, whole.steps[i].fields.thickness);
        EXPECT_EQ(resumed.steps[i].findings.web_lift, whole.steps[i].findings.web_lift);
        EXPECT_EQ(resumed.steps[i].report.n_iterations, whole.steps[i].report.n_iterations);
    }
    EXPECT_EQ(resumed.reason, whole.reason);
    EXPECT_EQ(resumed.figures.n_increments, whole.figures.n_increments);
    ASSERT_EQ(resumed.history.size(), whole.history.size());
    for (std::size_t i = 0; i < whole.history.size(); ++i) {
        EXPECT_EQ(resumed.history[i].positions, whole.history[i].positions);
        EXPECT_EQ(resumed.history[i].step, whole.history[i].step);
    }
}

TEST(RunState, CutBackIsTheRunAsItWasAfterItsFirstSteps) {
    const job::Job job = quick_slice(job::DriveKind::leaf);
    const Watched whole = watched_run(job);
    const RunState& all = whole.states.back();
    ASSERT_EQ(all.finished.size(), 2U);
    const RunState bent = cut_back(all, 1);
    ASSERT_EQ(bent.finished.size(), 1U);
    for (const Frame& frame : bent.history) {
        EXPECT_EQ(frame.step, 0);
    }
    expect_same(*taken_up(job, bent), whole.result);
    expect_same(*taken_up(job, cut_back(all, 0)), whole.result);
    EXPECT_EQ(cut_back(all, 7).finished.size(), 2U);
}

class TakenUpRun : public testing::TestWithParam<std::pair<job::DriveKind, double>> {};

TEST_P(TakenUpRun, EndsAsTheUninterruptedOne) {
    const job::Job job = quick_slice(GetParam().first, GetParam().second);
    const Watched whole = watched_run(job);
    ASSERT_EQ(whole.result.reason, StopReason::done);
    ASSERT_GT(whole.states.size(), 8U);
    ASSERT_EQ(whole.states.back().finished.size(), 2U);
    for (std::size_t i = 0; i < whole.states.size(); i += whole.states.size() / 7) {
        const Result<JobResult> resumed = taken_up(job, whole.states[i]);
        ASSERT_TRUE(resumed.has_value());
        expect_same(*resumed, whole.result);
    }
    const Result<JobResult> resumed = taken_up(job, whole.states.back());
    ASSERT_TRUE(resumed.has_value());
    expect_same(*resumed, whole.result);
}

INSTANTIATE_TEST_SUITE_P(
    BothDrives,
    TakenUpRun,
    testing::Values(
        std::pair(job::DriveKind::wiper, 0.0),
        std::pair(job::DriveKind::leaf, 0.0),
        std::pair(job::DriveKind::wiper, 0.12),
        std::pair(job::DriveKind::leaf, 0.12)
    )
);

TEST(RunKeeper, TakesUpARunThatStopsAtAnAngle) {
    job::Job job = quick_slice(job::DriveKind::wiper);
    job.drive.angle = 0.8;
    const Watched whole = watched_run(job);
    ASSERT_GT(whole.states.size(), 8U);
    for (std::size_t i = 0; i < whole.states.size(); i += whole.states.size() / 5) {
        const Result<JobResult> resumed = taken_up(job, whole.states[i]);
        ASSERT_TRUE(resumed.has_value());
        expect_same(*resumed, whole.result);
    }
}

// The tool's place all along the line follows from the share of the path; what it dragged along by
// friction, and the record of the passes, are kept.
TEST(RunKeeper, TakesUpADriveWorkedAlongTheLine) {
    for (const job::DriveKind kind : {job::DriveKind::wiper, job::DriveKind::leaf}) {
        job::Job job = quick_slice(kind, 0.12);
        job.blank.start = EndKind::free;
        job.blank.line = BendLine::straight(3);
        job.drive.order = job::DriveOrder::from_start;
        job.drive.angle = 0.9;
        job.drive.passes = {0.4, 0.9};
        job.drive.front = 9;
        const Watched whole = watched_run(job);
        ASSERT_EQ(whole.result.reason, StopReason::done);
        ASSERT_GT(whole.states.size(), 8U);
        for (std::size_t i = 0; i < whole.states.size(); i += whole.states.size() / 4) {
            const Result<JobResult> resumed = taken_up(job, whole.states[i]);
            ASSERT_TRUE(resumed.has_value());
            expect_same(*resumed, whole.result);
            ASSERT_TRUE(resumed->passes.has_value());
            const DriveRecord& record = resumed->passes->as_driven;
            EXPECT_EQ(record.stretched, whole.result.passes->as_driven.stretched);
            EXPECT_EQ(record.shrunk, whole.result.passes->as_driven.shrunk);
            ASSERT_EQ(record.passes.size(), 2U);
            EXPECT_EQ(
                record.passes[0].edge_strain, whole.result.passes->as_driven.passes[0].edge_strain
            );
        }
        RunState forgetful = whole.states[whole.states.size() / 2];
        forgetful.drive.reset();
        const Result<JobResult> refused = taken_up(job, forgetful);
        ASSERT_FALSE(refused.has_value());
        EXPECT_EQ(refused.error().object, "no record of the passes the job has");
    }
}

job::Job shifted_slice() {
    job::Job job = quick_slice(job::DriveKind::wiper);
    job.sheet.material.hardening = support::swift(300, 0.0032, 0.22);
    job.sheet.material.back_stresses = {{4000, 100}, {500, 8}};
    return job;
}

TEST(RunKeeper, TakesUpARunWithBackStresses) {
    const job::Job job = shifted_slice();
    const Watched whole = watched_run(job);
    ASSERT_EQ(whole.result.reason, StopReason::done);
    const shell::SheetState& end = whole.result.steps.back().state;
    ASSERT_EQ(end.back_stresses.size(), 2 * end.points.size());
    for (std::size_t i = 0; i < whole.states.size(); i += whole.states.size() / 5) {
        const Result<JobResult> resumed = taken_up(job, whole.states[i]);
        ASSERT_TRUE(resumed.has_value());
        expect_same(*resumed, whole.result);
        EXPECT_EQ(resumed->steps.back().state.back_stresses, end.back_stresses);
    }
    // The opposite claim: a state that lost its back stresses ends elsewhere, one without any place
    // for them is refused.
    RunState forgetful = whole.states[whole.states.size() / 2];
    ASSERT_TRUE(forgetful.under_way);
    for (material::SplitStress& back : forgetful.under_way->sheet.back_stresses) {
        back.setZero();
    }
    const Result<JobResult> elsewhere = taken_up(job, forgetful);
    ASSERT_TRUE(elsewhere.has_value());
    EXPECT_NE(elsewhere->steps.back().state.positions, end.positions);
    forgetful.under_way->sheet.back_stresses.clear();
    const Result<JobResult> refused = taken_up(job, forgetful);
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().object, "another mesh than this program makes");
}

TEST(RunKeeper, KeepsWhereARunWasStopped) {
    const job::Job job = quick_slice(job::DriveKind::leaf);
    std::stop_source source;
    Monitor monitor;
    monitor.stop = source.get_token();
    monitor.on_progress = [&source](const Progress& progress) {
        if (progress.n_increments == 5) {
            source.request_stop();
        }
    };
    std::optional<RunState> left;
    RunOptions options{.n_threads = 1, .n_frames = 6, .measure_bare_refactor = false};
    options.keep_state = [&left](const RunState& state) { left = state; };
    options.seconds_between_states = 1e9;
    ASSERT_EQ(run_job(job, options, monitor)->reason, StopReason::stop_requested);
    ASSERT_TRUE(left && left->under_way);
    EXPECT_EQ(left->under_way->path.report.n_increments, 5);
    const Result<JobResult> resumed = taken_up(job, *left);
    ASSERT_TRUE(resumed.has_value());
    expect_same(*resumed, watched_run(job).result);
}

TEST(RunKeeper, IsSilentWhenNobodyKeeps) {
    const job::Job job = quick_slice(job::DriveKind::leaf);
    const Result<JobResult> run =
        run_job(job, {.n_threads = 1, .n_frames = 6, .measure_bare_refactor = false}, {});
    ASSERT_TRUE(run.has_value());
    EXPECT_EQ(run->reason, StopReason::done);
}

TEST(RunState, OfAnotherMeshIsRefused) {
    job::Job job = quick_slice(job::DriveKind::leaf);
    const RunState state = watched_run(job).states.front();
    job.blank.flange_width = 14;
    const Result<JobResult> run = taken_up(job, state);
    ASSERT_FALSE(run.has_value());
    EXPECT_EQ(run.error().object, "another mesh than this program makes");
}

TEST(RunState, OfOtherStepsIsRefused) {
    job::Job job = quick_slice(job::DriveKind::leaf);
    const RunState state = watched_run(job).states.back();
    job.steps = {job::StepKind::bend_down};
    const Result<JobResult> run = taken_up(job, state);
    ASSERT_FALSE(run.has_value());
    EXPECT_EQ(run.error().object, "other steps than the job has");
}

} // namespace
} // namespace flangewright::process
