// What is recorded of a bend-down in passes.
#include "solver/findings/edge_strain.hpp"
#include "solver/process/drive_passes.hpp"
#include "solver/process/pass_watch.hpp"
#include "solver/process/run_job.hpp"
#include "tests/support/small_flange.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>

namespace flangewright::process {
namespace {

using job::DriveOrder;
using job::EndKind;
using outline::BendLine;
using outline::Curve;

constexpr double degree = std::numbers::pi / 180;

// The edge is pulled by a share along x, then by a smaller one: the record keeps the larger.
TEST(PassWatch, KeepsTheLargestStrainAndTheSmallestOfTheWay) {
    job::Job job = support::small_flange(BendLine::straight(12), EndKind::free, EndKind::free);
    job.drive.passes = {45 * degree, 90 * degree};
    Workpiece piece = support::small_workpiece(job, 4);
    const Eigen::Matrix3Xd flat = piece.state.positions;
    DriveRecord record;
    PassWatch watch(piece, record);
    ASSERT_EQ(record.stations.size(), 5);
    EXPECT_NEAR(record.stations[1], 3, 1e-9);
    for (const double stretch : {1.1, 0.96, 1.02}) {
        piece.state.positions.row(0) = stretch * flat.row(0);
        watch.look(piece, 0.01);
    }
    for (Eigen::Index i = 0; i < 5; ++i) {
        EXPECT_NEAR(record.stretched[i], std::log(1.1), 1e-12);
        EXPECT_NEAR(record.shrunk[i], std::log(0.96), 1e-12);
    }
    EXPECT_TRUE(record.passes.empty());
    watch.look(piece, pass_ends(job)[0]);
    ASSERT_EQ(record.passes.size(), 1U);
    EXPECT_NEAR(record.passes[0].edge_strain, std::log(1.02), 1e-12);
    EXPECT_DOUBLE_EQ(record.passes[0].angle_wanted, 45 * degree);
    watch.look(piece, 1);
    EXPECT_EQ(record.passes.size(), 1U); // the last one ends with the step
    DriveRecord stopped = record;
    PassWatch(piece, stopped).finish(piece, StopReason::stop_requested);
    EXPECT_EQ(stopped.passes.size(), 1U);
    watch.finish(piece, StopReason::done);
    EXPECT_EQ(record.passes.size(), 2U);
}

job::Job worked_arc() {
    job::Job job = support::small_flange(
        BendLine::arc(60, 0.2, Curve::concave), EndKind::free, EndKind::continues
    );
    job.accuracy = job::Accuracy::quick;
    job.steps = {job::StepKind::bend_down};
    job.drive.order = DriveOrder::from_start;
    job.drive.front = 24;
    job.drive.angle = 40 * degree;
    job.drive.passes = {20 * degree, 40 * degree};
    return job;
}

TEST(RunJob, SetsTheEvenDriveBesideOneThatIsNot) {
    RunOptions options{.n_threads = 2, .n_frames = 1, .measure_bare_refactor = false};
    const Result<JobResult> alone = run_job(worked_arc(), options, {});
    ASSERT_TRUE(alone.has_value());
    ASSERT_EQ(alone->reason, StopReason::done);
    ASSERT_TRUE(alone->passes.has_value());
    EXPECT_FALSE(alone->passes->even.has_value()); // not asked for
    options.compares_with_even = true;
    const Result<JobResult> run = run_job(worked_arc(), options, {});
    ASSERT_TRUE(run.has_value());
    ASSERT_TRUE(run->passes.has_value() && run->passes->even.has_value());
    const DriveRecord& worked = run->passes->as_driven;
    const DriveRecord& even = *run->passes->even;
    EXPECT_EQ(worked.stretched, alone->passes->as_driven.stretched);
    ASSERT_EQ(worked.passes.size(), 2U);
    ASSERT_EQ(even.passes.size(), 2U);
    EXPECT_EQ(worked.stations, even.stations);
    EXPECT_NEAR(even.passes[1].flange_angle, worked.passes[1].flange_angle, 4 * degree);
    EXPECT_GT(std::abs(even.passes[1].edge_strain - worked.passes[1].edge_strain), 1e-4);
    EXPECT_GT(run->passes->seconds_even, 0);
    // What the step ends with is among what was seen on the way.
    EXPECT_GE(worked.stretched.maxCoeff(), run->steps.front().findings.edge_tension_most - 1e-12);
    EXPECT_DOUBLE_EQ(worked.passes[1].edge_strain, run->steps.front().findings.edge_strain_most);
}

TEST(RunJob, OfOneEvenPassRecordsNone) {
    job::Job job = worked_arc();
    job.drive = {.kind = job::DriveKind::leaf, .clearance = 1.4, .angle = 15 * degree};
    RunOptions options{.n_threads = 1, .n_frames = 1, .measure_bare_refactor = false};
    options.compares_with_even = true;
    const Result<JobResult> run = run_job(job, options, {});
    ASSERT_TRUE(run.has_value());
    EXPECT_FALSE(run->passes.has_value());
}

TEST(PassWatch, WarnsOfAnEdgeStretchedFurtherOnTheWay) {
    DriveRecord record;
    EXPECT_EQ(warning_of_the_way(record, 0), "");
    record.stretched = Eigen::Vector3d(0.01, 0.08, 0);
    EXPECT_EQ(warning_of_the_way(record, 0.08), "");
    EXPECT_EQ(warning_of_the_way(record, 0.079), ""); // no news
    EXPECT_EQ(
        warning_of_the_way(record, 0.05),
        "On the way of the bend-down the free edge was stretched by 8.3 %, more than the 5.1 % it "
        "ends with. The verdict weighs the end: weigh the way yourself."
    );
    EXPECT_THAT(warning_of_the_way(record, -0.03), testing::HasSubstr("the 0.0 % it ends"));
}

TEST(DriveEvenly, SaysNothingWhenItIsStopped) {
    std::stop_source source;
    Monitor monitor;
    monitor.stop = source.get_token();
    std::string step;
    monitor.on_progress = [&](const Progress& progress) {
        step = progress.step;
        source.request_stop();
    };
    EXPECT_FALSE(drive_evenly(worked_arc(), 1, monitor).has_value());
    EXPECT_EQ(step, "even drive, to compare");
}

} // namespace
} // namespace flangewright::process
