// The text a state belongs to changes with every number of the job and with nothing else.
#include "io/saved_state/case_text.hpp"
#include "tests/support/small_flange.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

namespace flangewright::saved_state {
namespace {

job::Job some_job() {
    job::Job job = support::small_flange(
        outline::BendLine::arc(50, 0.3, outline::Curve::concave),
        job::EndKind::free,
        job::EndKind::continues
    );
    job.sheet.material.law_name = "swift";
    job.sheet.material.law_values = {{"strength", {330}}};
    job.sheet.material.back_stresses = {{9000, 150}};
    return job;
}

std::string difference_after(void (*change)(job::Job& job)) {
    job::Job job = some_job();
    change(job);
    return first_difference(case_text(some_job(), "1"), case_text(job, "1"));
}

TEST(CaseText, SaysTheFirstDifferenceInWords) {
    EXPECT_EQ(
        difference_after([](job::Job& job) { job.sheet.thickness = 1.5; }),
        "sheet.thickness = 1 there, sheet.thickness = 1.5 here"
    );
    EXPECT_EQ(
        difference_after([](job::Job& job) { job.steps = {job::StepKind::bend_down}; }),
        "run.steps = bend-down, release there, run.steps = bend-down here"
    );
}

TEST(CaseText, KnowsTheYieldLawOfARolledSheet) {
    const auto rolled = [](job::Job& job) {
        job.sheet.material.yield = support::hill48(1, 1, 0.8);
        job.sheet.material.yield_name = "hill48";
        job.sheet.material.yield_values = {{"r90", {0.8}}};
    };
    job::Job one = some_job();
    job::Job other = some_job();
    rolled(one);
    rolled(other);
    other.sheet.material.yield_values["r90"] = {0.9};
    EXPECT_EQ(
        first_difference(case_text(one, "1"), case_text(other, "1")),
        "sheet.material.yield.r90 = 0.8 there, sheet.material.yield.r90 = 0.9 here"
    );
    EXPECT_NE(difference_after(rolled), "");
    // States kept before there were yield laws stay what they were.
    EXPECT_EQ(case_text(some_job(), "1").find("yield"), std::string::npos);
}

// Whether the state after the first steps of a changed job is that of the old one.
bool keeps(std::size_t n_steps, void (*change)(job::Job& job)) {
    job::Job job = some_job();
    job.steps = {
        job::StepKind::bend_down,
        job::StepKind::release,
        job::StepKind::anneal,
        job::StepKind::heat_treat};
    job.annealed = job.heat_treated = job.sheet.material;
    const std::string then = case_text(job, "1");
    change(job);
    return text_of_first_steps(then, n_steps) == text_of_first_steps(case_text(job, "1"), n_steps);
}

TEST(CaseText, OfTheFirstStepsLeavesOutWhatOnlyLaterOnesUse) {
    const auto other_temper = [](job::Job& job) { job.heat_treated.name = "other"; };
    EXPECT_TRUE(keeps(3, other_temper));
    EXPECT_FALSE(keeps(4, other_temper));
    const auto other_soft = [](job::Job& job) { job.annealed.youngs_modulus += 1; };
    EXPECT_TRUE(keeps(2, other_soft));
    EXPECT_FALSE(keeps(3, other_soft));
    const auto no_anneal = [](job::Job& job) { job.steps.erase(job.steps.begin() + 2); };
    EXPECT_TRUE(keeps(2, no_anneal));
    EXPECT_FALSE(keeps(3, no_anneal));
    EXPECT_FALSE(keeps(1, [](job::Job& job) { job.block.nose_radius += 1; }));
}

// A trim puts a row of nodes into the blank's mesh.
TEST(CaseText, OfTheFirstStepsKnowsWhetherTheBlankIsMeshedForATrim) {
    EXPECT_FALSE(keeps(1, [](job::Job& job) { job.steps.push_back(job::StepKind::trim); }));
}

TEST(CaseText, KnowsEveryPartOfTheJobTheMechanicsSee) {
    using Change = void (*)(job::Job&);
    for (const Change change : std::initializer_list<Change>{
             [](job::Job& job) { job.sheet.material.name = "other"; },
             [](job::Job& job) { job.sheet.material.youngs_modulus += 1e-9; },
             [](job::Job& job) { job.sheet.material.poisson_ratio = 0.3; },
             [](job::Job& job) { job.sheet.material.law_name = "voce"; },
             [](job::Job& job) { job.sheet.material.law_values["strength"] = {331}; },
             [](job::Job& job) { job.sheet.material.back_stresses[0].stiffness += 1; },
             [](job::Job& job) { job.sheet.material.back_stresses[0].recall += 1; },
             [](job::Job& job) { job.sheet.material.back_stresses.clear(); },
             [](job::Job& job) { job.blank.line = outline::BendLine::straight(15); },
             [](job::Job& job) {
                 job.blank.line = outline::BendLine::chain({{15, 0.02}, {9, 0}});
             },
             [](job::Job& job) { job.blank.web_width += 1; },
             [](job::Job& job) { job.blank.flange_width += 1; },
             [](job::Job& job) {
                 job.blank.flange_widths = outline::Profile({{0, 9}, {9, 8}});
             },
             [](job::Job& job) {
                 job.block.wall_angles = outline::Profile({{0, 1.5}, {9, 1.4}});
             },
             [](job::Job& job) { job.blank.start = job::EndKind::continues; },
             [](job::Job& job) { job.blank.end = job::EndKind::free; },
             [](job::Job& job) { job.block.nose_radius += 1; },
             [](job::Job& job) { job.block.wall_angle += 1e-15; },
             [](job::Job& job) { job.block.backing_setback += 1; },
             [](job::Job& job) { job.block.friction += 0.1; },
             [](job::Job& job) { job.drive.kind = job::DriveKind::leaf; },
             [](job::Job& job) { job.drive.clearance += 0.1; },
             [](job::Job& job) { job.drive.corner_radius += 1; },
             [](job::Job& job) { job.drive.angle -= 0.1; },
             [](job::Job& job) { job.drive.order = job::DriveOrder::from_end; },
             [](job::Job& job) {
                 job.drive.passes = {0.5, job.drive.angle};
             },
             [](job::Job& job) { job.drive.front = 20; },
             [](job::Job& job) { job.accuracy = job::Accuracy::fine; }}) {
        EXPECT_NE(difference_after(change), "");
    }
}

TEST(CaseText, NamesEveryPieceOfABendLine) {
    job::Job job = some_job();
    job.blank.line = outline::BendLine::chain({{15, 0.02}, {9, 0}, {30, -0.01}});
    job::Job other = job;
    other.blank.line = outline::BendLine::chain({{15, 0.02}, {9, 0}, {30, -0.02}});
    EXPECT_EQ(
        first_difference(case_text(job, "1"), case_text(other, "1")),
        "bend_line.curvature = -0.01 there, bend_line.curvature = -0.02 here"
    );
}

TEST(CaseText, LeavesOutWhatChangesNoState) {
    EXPECT_EQ(difference_after([](job::Job& job) { job.title = "other"; }), "");
    EXPECT_EQ(difference_after([](job::Job& job) { job.close_share = 0.5; }), "");
    EXPECT_EQ(
        difference_after([](job::Job& job) { job.blank.edge_finish = material::EdgeFinish::filed; }
        ),
        ""
    );
    EXPECT_EQ(
        difference_after([](job::Job& job) { job.trimmed_edge_finish = material::EdgeFinish::sawn; }
        ),
        ""
    );
}

TEST(CaseText, KnowsTheProgramsVersion) {
    EXPECT_EQ(
        first_difference(case_text(some_job(), "1"), case_text(some_job(), "2")),
        "flangewright = 1 there, flangewright = 2 here"
    );
}

} // namespace
} // namespace flangewright::saved_state
