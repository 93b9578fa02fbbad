// How unevenly a straight sheet bends round a nose, beside what the verdict counts for it.
#include "solver/findings/verdict.hpp"
#include "solver/process/run_job.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace flangewright::findings {
namespace {

TEST(UnevenBend, IsWhatAStraightStripFindsAtMost) {
    for (const double radius : {1.5, 4.0}) {
        job::Job job = support::small_flange(
            outline::BendLine::straight(3), job::EndKind::continues, job::EndKind::continues
        );
        job.block.nose_radius = radius;
        job.accuracy = job::Accuracy::quick;
        job.steps = {job::StepKind::bend_down};
        const process::RunOptions options{
            .n_threads = 1, .n_frames = 1, .measure_bare_refactor = false};
        const auto run = process::run_job(job, options, {});
        ASSERT_TRUE(run.has_value() && run->reason == process::StopReason::done);
        const double even = 1 / (2 * radius / job.sheet.thickness + 1);
        const double found = std::expm1(run->steps.front().findings.bend_strain_used) / even;
        RecordProperty("over_even_at_" + std::to_string(radius), std::to_string(found));
        EXPECT_GT(found, 1);
        EXPECT_LT(found, uneven_bend);
    }
}

} // namespace
} // namespace flangewright::findings
