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

TEST(RunJob, WorksOutACureWhereTheWebLiftsAndItIsAskedFor) {
    job::Job job = support::small_flange(
        BendLine::arc(60, 0.5, outline::Curve::concave), EndKind::continues, EndKind::continues
    );
    job.accuracy = job::Accuracy::quick;
    job.blank.web_width = 30;
    job.blank.flange_width = 12;
    job.sheet.thickness = 0.6;
    RunOptions options{.n_threads = 1, .n_frames = 0, .measure_bare_refactor = false};
    const Result<JobResult> without = run_job(job, options, {});
    options.works_out_web_cure = true;
    const Result<JobResult> with = run_job(job, options, {});
    ASSERT_TRUE(without && with);
    EXPECT_FALSE(without->web_cure);
    const findings::PartFindings& released = with->steps.back().findings;
    ASSERT_TRUE(with->web_cure);
    EXPECT_EQ(with->web_cure->lift_before, released.web_lift);
    EXPECT_TRUE(with->web_cure->helps()); // from 0.59 to 0.08 mm; the web is about to snap
    // The findings are those of the part as released.
    EXPECT_EQ(released.web_lift, without->steps.back().findings.web_lift);
}

// The same sheet, block and mesh, described in two pieces.
TEST(RunJob, OfTwoHalfArcsIsThatOfTheArc) {
    constexpr double rounding = 1e-6; // of the places, carried through some hundred iterations
    const auto run_on = [](const BendLine& line) {
        job::Job job = support::small_flange(line, EndKind::continues, EndKind::free);
        job.accuracy = job::Accuracy::quick;
        return run_job(job, {.n_threads = 1, .measure_bare_refactor = false}, {});
    };
    const auto arc = run_on(BendLine::arc(40, 0.1, outline::Curve::concave));
    const auto halves = run_on(BendLine::chain({{1.5, 1.0 / 40}, {2.5, 1.0 / 40}}));
    ASSERT_TRUE(arc.has_value() && halves.has_value());
    ASSERT_EQ(halves->steps.size(), 2U);
    EXPECT_EQ(halves->reason, StopReason::done);
    for (std::size_t i = 0; i < 2; ++i) {
        const findings::PartFindings& one = arc->steps[i].findings;
        const findings::PartFindings& other = halves->steps[i].findings;
        EXPECT_NEAR(one.flange_angle.mean, other.flange_angle.mean, rounding);
        EXPECT_NEAR(one.edge_strain_most, other.edge_strain_most, rounding);
        EXPECT_NEAR(one.thinning_most, other.thinning_most, rounding);
        EXPECT_NEAR(one.plan_radius, other.plan_radius, 1e-3);
    }
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

// A tensile curve can't tell a yield surface that grows from one that shifts; a wiper in a tight
// channel, which bends each strip of the flange and unbends it, can. A shifted surface resists the
// unbending less, so the flange, let go, curls back less towards its bend and the part opens more.
TEST(RunJob, SpringsBackOtherwiseWhenHardeningShiftsTheYieldSurface) {
    const RunOptions options{.n_threads = 1, .n_frames = 1, .measure_bare_refactor = false};
    job::Job shifted = quick_slice();
    shifted.blank.flange_width = 16;
    shifted.drive.clearance = 1.05;
    shifted.sheet.material.hardening = support::swift(250, 0.0032, 0.22);
    shifted.sheet.material.back_stresses = {{9000, 150}};
    job::Job grown = shifted;
    grown.sheet.material.back_stresses.clear();
    grown.sheet.material.hardening = material::steady_flow(
        shifted.sheet.material.hardening, shifted.sheet.material.back_stresses
    );
    const Result<JobResult> with_shift = run_job(shifted, options, {});
    const Result<JobResult> with_growth = run_job(grown, options, {});
    ASSERT_TRUE(with_shift.has_value() && with_growth.has_value());
    ASSERT_EQ(with_shift->reason, StopReason::done);
    ASSERT_EQ(with_growth->reason, StopReason::done);
    const double springback = with_shift->steps.back().findings.springback->mean;
    const double otherwise = with_growth->steps.back().findings.springback->mean;
    RecordProperty("springback_with_shift", std::to_string(springback));
    RecordProperty("springback_with_growth", std::to_string(otherwise));
    RecordProperty("iterations_with_shift", with_shift->figures.n_iterations);
    RecordProperty("iterations_with_growth", with_growth->figures.n_iterations);
    EXPECT_GT(springback, 1.02 * otherwise);
    EXPECT_LT(springback, 2 * otherwise);
    // The symmetric part of the tangent is enough: Newton needs hardly more.
    EXPECT_LT(with_shift->figures.n_iterations, 1.25 * with_growth->figures.n_iterations);
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
