// What would help a lip: an anneal before it, solved anew through all steps.
#include "solver/findings/lip_development.hpp"
#include "solver/process/remedies.hpp"
#include "solver/process/run_job.hpp"
#include "tests/support/tried_changes.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace flangewright::process {
namespace {

using findings::VerdictWord;
using job::EndKind;
using job::StepKind;
using material::DataGrade;
using outline::BendLine;
using outline::Curve;

TEST(Remedies, AnnealBeforeTheLip) {
    job::Job job = support::ring();
    job.block.nose_radius = 2;
    job.drive.clearance = 1.1;
    job.blank.line = BendLine::arc(120, 0.015, Curve::concave);
    job.blank.flange_depth = 14;
    job.return_bend = job::ReturnBend{
        .side = job::LipSide::under_web,
        .lip_depth = 8,
        .nose_radius = 2,
        .clearance = 1.1,
        .corner_radius = 3};
    const findings::LipDevelopment lip = findings::develop_lip(job);
    job.blank.flange_width = lip.bend_begin + lip.width;
    job.blank.lip_width = lip.width;
    job.steps = {
        StepKind::bend_down, StepKind::release, StepKind::set_on_block, StepKind::return_bend};
    support::set_edge_limit(job, 0.95);
    const JobResult run = support::quick_run(job);
    ASSERT_EQ(run.verdict.word, VerdictWord::close);
    const std::optional<Remedies> remedies = find_remedies(job, run, 2, {});
    ASSERT_TRUE(remedies.has_value());
    job::Job annealed = job;
    annealed.annealed = job.sheet.material;
    annealed.steps.insert(annealed.steps.begin() + 2, StepKind::anneal);
    const double share = *support::quick_run(annealed).verdict.share_used;
    const Remedy* anneal = support::find(*remedies, RemedyKind::anneal_first);
    ASSERT_EQ(anneal != nullptr, share <= 0.94);
    ASSERT_NE(anneal, nullptr);
    EXPECT_NEAR(anneal->share, share, 1e-6);
}

} // namespace
} // namespace flangewright::process
