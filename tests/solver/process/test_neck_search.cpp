#include "solver/process/neck_search.hpp"
#include "solver/process/run_job.hpp"
#include "tests/support/flat_blank.hpp"
#include "tests/support/small_flange.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <numbers>

namespace flangewright::process {
namespace {

using job::EndKind;
using job::StepKind;

job::Job made_up_job() {
    job::Job job = support::small_flange(
        outline::BendLine::straight(60), EndKind::continues, EndKind::continues
    );
    job.annealed = job.sheet.material;
    return job;
}

Eigen::Matrix3Xd stretched(const grid::SheetMesh& mesh, double along, double across) {
    Eigen::Matrix3Xd positions = mesh.positions;
    positions.row(0) *= std::exp(along);
    positions.row(1) *= std::exp(across);
    return positions;
}

void add_step(JobResult& result, StepKind kind, double along, double across) {
    StepResult step;
    step.kind = kind;
    step.mesh = std::make_shared<const grid::SheetMesh>(result.mesh);
    step.state.positions = stretched(result.mesh, along, across);
    result.steps.push_back(step);
}

TEST(NeckSearch, LooksAtTheWayNotOnlyAtTheEnd) {
    JobResult direct;
    direct.mesh = support::flat_blank({});
    add_step(direct, StepKind::bend_down, 0.1, 0.06);
    JobResult round_about = direct;
    Frame on_way;
    on_way.positions =
        stretched(direct.mesh, 0.0, 0.06); // first plane strain one way, then the other
    round_about.history.push_back(on_way);
    look_for_necks(made_up_job(), 1, direct);
    look_for_necks(made_up_job(), 1, round_about);
    const double straight = direct.steps[0].findings.neck.value().share;
    EXPECT_GT(straight, 0.25);
    EXPECT_GT(round_about.steps[0].findings.neck.value().share, 1.1 * straight);
}

// Rolled along the line and stretched along it, or rolled across and stretched across.
TEST(NeckSearch, TurnsTheStrainToTheRollingDirection) {
    job::Job job = made_up_job();
    job.sheet.material.yield = support::hill48(0.4, 0.8, 1.6);
    const auto share = [&](double rolled, double along, double across) {
        job.sheet.rolling_direction = rolled;
        JobResult result;
        result.mesh = support::flat_blank({});
        add_step(result, StepKind::bend_down, along, across);
        look_for_necks(job, 1, result);
        return result.steps[0].findings.neck.value().share;
    };
    const double square = 0.5 * std::numbers::pi;
    const double along_grain = share(0, 0.12, -0.02);
    EXPECT_NEAR(share(square, -0.02, 0.12), along_grain, 1e-6);
    EXPECT_GT(std::abs(share(square, 0.12, -0.02) - along_grain), 0.01);
}

TEST(NeckSearch, BeginsAnewAtAnAnnealAndKeepsTheShareAtARelease) {
    JobResult result;
    result.mesh = support::flat_blank({});
    add_step(result, StepKind::bend_down, 0.1, 0);
    add_step(result, StepKind::release, 0.098, 0);
    add_step(result, StepKind::anneal, 0.098, 0);
    add_step(result, StepKind::return_bend, 0.148, 0);
    look_for_necks(made_up_job(), 1, result);
    const auto share = [&](std::size_t step) { return result.steps[step].findings.neck->share; };
    EXPECT_GT(share(0), 0.5);
    EXPECT_EQ(share(1), share(0));
    EXPECT_EQ(share(2), 0);
    EXPECT_NEAR(share(3), 0.5 * share(0), 0.02);
}

TEST(NeckSearch, OfASecondBendAddsToTheFirst) {
    JobResult result;
    result.mesh = support::flat_blank({});
    add_step(result, StepKind::bend_down, 0.06, -0.03);
    add_step(result, StepKind::return_bend, 0.06, 0.05);
    look_for_necks(made_up_job(), 1, result);
    JobResult alone;
    alone.mesh = result.mesh;
    add_step(alone, StepKind::bend_down, 0, 0.08);
    look_for_necks(made_up_job(), 1, alone);
    const double first = result.steps[0].findings.neck->share;
    const double both = result.steps[1].findings.neck->share;
    EXPECT_GT(both, alone.steps[0].findings.neck->share + 0.2 * first);
}

// A run with trim: paths follow the nodes that are left, and the verdict weighs the interior.
TEST(NeckSearch, GoesThroughAWholeRun) {
    job::Job job = support::small_flange(
        outline::BendLine::arc(40, 0.3, outline::Curve::concave),
        EndKind::continues,
        EndKind::continues
    );
    job.accuracy = job::Accuracy::quick;
    job.blank.trim_allowance = 1.5;
    job.steps = {StepKind::bend_down, StepKind::release, StepKind::trim};
    const RunOptions options{.n_threads = 1, .n_frames = 8, .measure_bare_refactor = false};
    const Result<JobResult> run = run_job(job, options, {});
    ASSERT_TRUE(run.has_value());
    ASSERT_EQ(run->reason, StopReason::done);
    for (std::size_t i = 0; i < run->steps.size(); ++i) {
        const StepResult& step = run->steps[i];
        ASSERT_EQ(step.neck_shares.size(), mesh_of(*run, i).n_nodes());
        EXPECT_TRUE(step.neck_shares.allFinite());
        EXPECT_GE(step.neck_shares.minCoeff(), 0);
        ASSERT_TRUE(step.findings.neck);
        EXPECT_GT(step.findings.neck->distance, 0) << "the flange stretches, the web does not";
    }
    EXPECT_LT(run->steps[2].neck_shares.size(), run->steps[1].neck_shares.size());
    const findings::NeckFindings& neck = *run->steps[0].findings.neck;
    EXPECT_GT(neck.share, 0.05);
    EXPECT_LT(neck.share, 1);
    EXPECT_LT(std::exp(neck.major_strain), std::exp(run->steps[0].findings.edge_tension_most));
    EXPECT_EQ(run->verdict.limits.back().place, "sheet away from edges and bends");
}

} // namespace
} // namespace flangewright::process
