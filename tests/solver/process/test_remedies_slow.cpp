// What would help a lip: an anneal before it, solved anew through all steps.
#include "solver/findings/lip_development.hpp"
#include "solver/process/remedies.hpp"
#include "solver/process/run_job.hpp"
#include "tests/support/small_flange.hpp"

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

JobResult quick_run(const job::Job& job) {
    auto run = run_job(job, {.n_threads = 1, .n_frames = 0, .measure_bare_refactor = false}, {});
    EXPECT_TRUE(run.has_value());
    return std::move(*run);
}

// One element along, so that the part is its own slice.
job::Job ring() {
    job::Job job = support::small_flange(
        BendLine::arc(60, 0.03, Curve::concave), EndKind::continues, EndKind::continues
    );
    job.accuracy = job::Accuracy::quick;
    job.sheet.material.bend_limits = {{1, 0.5}};
    job.sheet.material.bend_grade = DataGrade::coupon;
    return job;
}

// An edge limit of which the job uses this share.
void set_edge_limit(job::Job& job, double share) {
    const double reached = quick_run(job).verdict.limits.front().reached;
    job.sheet.material.uniform_elongation = {reached / share, DataGrade::coupon, "made up"};
}

const Remedy* find(const Remedies& remedies, RemedyKind kind) {
    const auto found = std::ranges::find(remedies.helpful, kind, &Remedy::kind);
    return found == remedies.helpful.end() ? nullptr : &*found;
}

TEST(Remedies, AnnealBeforeTheLip) {
    job::Job job = ring();
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
    set_edge_limit(job, 0.95);
    const JobResult run = quick_run(job);
    ASSERT_EQ(run.verdict.word, VerdictWord::close);
    const std::optional<Remedies> remedies = find_remedies(job, run, 2, {});
    ASSERT_TRUE(remedies.has_value());
    job::Job annealed = job;
    annealed.annealed = job.sheet.material;
    annealed.steps.insert(annealed.steps.begin() + 2, StepKind::anneal);
    const double share = *quick_run(annealed).verdict.share_used;
    const Remedy* anneal = find(*remedies, RemedyKind::anneal_first);
    ASSERT_EQ(anneal != nullptr, share <= 0.94);
    ASSERT_NE(anneal, nullptr);
    EXPECT_NEAR(anneal->share, share, 1e-6);
}

} // namespace
} // namespace flangewright::process
