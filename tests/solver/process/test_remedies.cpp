// What would help: every line must be what a solve of its own says.
#include "solver/process/remedies.hpp"
#include "solver/process/run_job.hpp"
#include "tests/support/small_flange.hpp"
#include "tests/support/tried_changes.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

namespace flangewright::process {
namespace {

using findings::VerdictWord;
using job::EndKind;
using material::DataGrade;
using outline::BendLine;
using outline::Curve;

TEST(Remedies, OfDepthAndPlanRadiusAreWhatSolvesOfTheirOwnSay) {
    job::Job job = support::ring();
    job.blank.flange_width = 16;
    support::set_edge_limit(job, 1.2);
    const JobResult run = support::quick_run(job);
    ASSERT_EQ(run.verdict.word, VerdictWord::splits);
    const std::optional<Remedies> remedies = find_remedies(job, run, 2, {});
    ASSERT_TRUE(remedies.has_value());
    EXPECT_NEAR(remedies->share_as_run, 1.2, 1e-9);
    EXPECT_NEAR(remedies->share_of_model, 1.2, 1e-6);

    const Remedy* depth = support::find(*remedies, RemedyKind::less_depth);
    ASSERT_NE(depth, nullptr);
    EXPECT_EQ(depth->word, VerdictWord::holds);
    EXPECT_EQ(depth->from, job.blank.flange_width);
    job::Job narrower = job;
    narrower.blank.flange_width = depth->to;
    EXPECT_NEAR(*support::quick_run(narrower).verdict.share_used, depth->share, 1e-6);
    // Not far more than is needed: with half the change it does not hold.
    narrower.blank.flange_width = 0.5 * (depth->from + depth->to);
    EXPECT_NE(support::quick_run(narrower).verdict.word, VerdictWord::holds);

    const Remedy* radius = support::find(*remedies, RemedyKind::larger_plan_radius);
    ASSERT_NE(radius, nullptr);
    EXPECT_EQ(radius->word, VerdictWord::holds);
    EXPECT_NEAR(radius->from, 60, 1e-9);
    job::Job rounder = job;
    rounder.blank.line = BendLine::chain({{job.blank.line.length(), 1 / radius->to}});
    EXPECT_NEAR(*support::quick_run(rounder).verdict.share_used, radius->share, 1e-6);

    EXPECT_TRUE(std::ranges::is_sorted(remedies->helpful, {}, &Remedy::share));
    EXPECT_EQ(support::find(*remedies, RemedyKind::anneal_first), nullptr); // no lip
    EXPECT_EQ(support::find(*remedies, RemedyKind::turned_grain), nullptr); // alike every way
    EXPECT_EQ(support::find(*remedies, RemedyKind::better_edge), nullptr); // finish not stated
}

TEST(Remedies, OfABendThatGovernsAreALargerNoseAndNoLessDepth) {
    job::Job job =
        support::small_flange(BendLine::straight(2), EndKind::continues, EndKind::continues);
    job.accuracy = job::Accuracy::quick;
    job.sheet.material.bend_limits = {{1, 3.1}};
    job.sheet.material.bend_grade = DataGrade::coupon;
    material::SheetMaterial softer = job.sheet.material;
    softer.name = "softer";
    softer.bend_limits = {{1, 2}};
    job.sheet.softer_tempers = {softer};
    const JobResult run = support::quick_run(job);
    ASSERT_EQ(run.verdict.word, VerdictWord::splits);
    const std::optional<Remedies> remedies = find_remedies(job, run, 2, {});
    ASSERT_TRUE(remedies.has_value());
    const Remedy* nose = support::find(*remedies, RemedyKind::larger_nose);
    ASSERT_NE(nose, nullptr);
    EXPECT_EQ(nose->to, 4.5); // the smaller that is enough
    job::Job rounder = job;
    rounder.block.nose_radius = 4.5;
    EXPECT_NEAR(*support::quick_run(rounder).verdict.share_used, nose->share, 1e-6);
    EXPECT_EQ(support::find(*remedies, RemedyKind::less_depth), nullptr);
    EXPECT_EQ(support::find(*remedies, RemedyKind::larger_plan_radius), nullptr);
    // The same sheet that bears a sharper bend: its share is to the other's as their limits are.
    const Remedy* temper = support::find(*remedies, RemedyKind::softer_temper);
    ASSERT_NE(temper, nullptr);
    EXPECT_EQ(temper->sheet, "softer");
    EXPECT_EQ(temper->sheet_now, job.sheet.material.name);
    EXPECT_NEAR(temper->share, *run.verdict.share_used * (2 * 2 + 1) / (2 * 3.1 + 1), 1e-9);
    EXPECT_EQ(remedies->n_tempers, 1);
}

TEST(Remedies, OfAnEdgeAreTheNextFinishThatHelps) {
    job::Job job = support::ring();
    job.blank.edge_finish = material::EdgeFinish::snipped;
    const double reached = support::quick_run(job).verdict.limits.front().reached;
    const auto bears = [reached](double share) {
        return material::Sourced{reached / share, DataGrade::coupon, "made up"};
    };
    job.sheet.material.edge_limits = {
        {material::EdgeFinish::snipped, bears(1.1)},
        {material::EdgeFinish::sawn, bears(1.1)},
        {material::EdgeFinish::filed, bears(0.6)},
        {material::EdgeFinish::polished, bears(0.5)}};
    const std::optional<Remedies> remedies = find_remedies(job, support::quick_run(job), 2, {});
    ASSERT_TRUE(remedies.has_value());
    const Remedy* edge = support::find(*remedies, RemedyKind::better_edge);
    ASSERT_NE(edge, nullptr);
    EXPECT_EQ(edge->finish, material::EdgeFinish::filed); // sawn helps nothing
    EXPECT_NEAR(edge->share, 0.6, 1e-9);
    EXPECT_EQ(edge->word, VerdictWord::holds);
    EXPECT_EQ(support::find(*remedies, RemedyKind::better_trimmed_edge), nullptr);
}

// As where metal comes in from cut ends: the part uses far less than its slice would.
TEST(Remedies, AreNotToldOfAPartThatIsNotLikeItsSlice) {
    job::Job job = support::ring();
    support::set_edge_limit(job, 1.2);
    JobResult run = support::quick_run(job);
    run.verdict.share_used = run.verdict.limits.front().share = 0.85;
    run.verdict.word = VerdictWord::close;
    const std::optional<Remedies> remedies = find_remedies(job, run, 2, {});
    ASSERT_TRUE(remedies.has_value());
    EXPECT_NEAR(remedies->share_of_model, 1.2, 1e-6);
    EXPECT_FALSE(remedies->is_slice_like_part());
    EXPECT_TRUE(remedies->helpful.empty());
    run.verdict.share_used = run.verdict.limits.front().share = 0.95;
    EXPECT_FALSE(find_remedies(job, run, 2, {})->helpful.empty());
}

TEST(Remedies, TurnARolledSheetOnlyWhereThatHelps) {
    job::Job job = support::ring();
    job.sheet.material.yield = support::hill48(0.5, 1.0, 2.0);
    support::set_edge_limit(job, 0.95);
    const JobResult run = support::quick_run(job);
    job::Job turned = job;
    turned.sheet.rolling_direction = 0.5 * std::numbers::pi;
    const double share = *support::quick_run(turned).verdict.share_used;
    const std::optional<Remedies> remedies = find_remedies(job, run, 2, {});
    ASSERT_TRUE(remedies.has_value());
    const Remedy* grain = support::find(*remedies, RemedyKind::turned_grain);
    const bool helps = share <= *run.verdict.share_used - 0.01;
    ASSERT_EQ(grain != nullptr, helps);
    // The other way round it is the other answer.
    const JobResult run_turned = support::quick_run(turned);
    const std::optional<Remedies> back = find_remedies(turned, run_turned, 2, {});
    const bool helps_back = *run.verdict.share_used <= share - 0.01;
    if (back) {
        EXPECT_EQ(support::find(*back, RemedyKind::turned_grain) != nullptr, helps_back);
    }
    EXPECT_GT(std::abs(share - *run.verdict.share_used), 1e-4); // the grain counts at all
}

TEST(Remedies, ComeWithTheRunOnlyWhenAskedForAndItMaySplit) {
    job::Job job = support::ring();
    support::set_edge_limit(job, 0.9);
    const RunOptions asked{
        .n_threads = 2, .measure_bare_refactor = false, .works_out_remedies = true};
    const auto run = run_job(job, asked, {});
    EXPECT_EQ(run->verdict.word, VerdictWord::close);
    EXPECT_TRUE(run->remedies.has_value());
    EXPECT_FALSE(support::quick_run(job).remedies.has_value());
    job.sheet.material.uniform_elongation.value = 1;
    EXPECT_FALSE(run_job(job, asked, {})->remedies.has_value());
}

TEST(Remedies, TellHowFarTheyAreAndEndWhenAsked) {
    job::Job job = support::ring();
    support::set_edge_limit(job, 0.9);
    const JobResult run = support::quick_run(job);
    std::stop_source source;
    source.request_stop();
    Monitor monitor;
    monitor.stop = source.get_token();
    int n_told = 0;
    monitor.on_progress = [&n_told](const Progress& progress) {
        EXPECT_EQ(progress.step, "what would help");
        ++n_told;
    };
    EXPECT_FALSE(find_remedies(job, run, 2, monitor).has_value());
    EXPECT_GT(n_told, 0);
}

} // namespace
} // namespace flangewright::process
