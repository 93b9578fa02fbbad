// The search for the outline with made-up formers; with the solver: test_blank_outline_slow.cpp.
#include "solver/findings/flange_development.hpp"
#include "solver/process/blank_outline.hpp"
#include "solver/process/outline_guess.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;
using outline::Curve;
using outline::Profile;

constexpr double length = 100;
constexpr double rounding = 1e-9;

job::Job straight_flange() {
    job::Job job = support::small_flange(BendLine::straight(length), EndKind::free, EndKind::free);
    job.blank.flange_depth = 12;
    job.blank.flange_width = findings::developed_flange_width(job);
    return job;
}

/// A flange whose depth is its net width times a factor that changes along the line, and 2 mm more.
Former made_up_former(int& n_formed) {
    return [&n_formed](const job::Job& job) -> Result<FormedPart> {
        ++n_formed;
        FormedPart part;
        for (int i = 0; i <= 50; ++i) {
            const double station = length * i / 50;
            const double factor = 0.95 + 0.1 * station / length;
            const double net = job.blank.flange_width_at(station) - job.blank.trim_allowance;
            part.depths.push_back({station, 2 + factor * net});
        }
        return part;
    };
}

TEST(OutlineGuess, IsTheDevelopmentWhereTheLineIsAlike) {
    const job::Job job = straight_flange();
    const Profile net = guessed_net_widths(job, {});
    ASSERT_EQ(net.points().size(), 1U);
    EXPECT_NEAR(net.at(50), job.blank.flange_width, rounding);
}

TEST(OutlineGuess, TakesTheCurvatureOfEachPieceAndBridgesThem) {
    job::Job job = straight_flange();
    job.blank.line = BendLine::chain({{50, 1.0 / 80}, {50, 0}, {50, -1.0 / 80}});
    const auto width_of = [&job](double curvature) {
        job::Job there = job;
        there.blank.line = BendLine::chain({{150, curvature}});
        return findings::developed_flange_width(there);
    };
    const Profile net = guessed_net_widths(job, {});
    EXPECT_NEAR(net.at(10), width_of(1.0 / 80), rounding);
    EXPECT_NEAR(net.at(75), width_of(0), rounding);
    EXPECT_NEAR(net.at(140), width_of(-1.0 / 80), rounding);
    EXPECT_GT(net.at(10), net.at(75)); // a flange that is stretched comes out shallower
    EXPECT_GT(net.at(75), net.at(140));
    EXPECT_NEAR(net.at(50), width_of(0.5 / 80), 0.02); // half of it at the joint
}

TEST(OutlineGuess, FollowsATableOfDepths) {
    const job::Job job = straight_flange();
    const Profile net = guessed_net_widths(job, Profile({{20, 12}, {80, 18}}));
    EXPECT_NEAR(net.at(0), net.at(20), rounding);
    EXPECT_NEAR(net.at(80) - net.at(20), 6, rounding); // straight: width for depth
    EXPECT_NEAR(net.at(50) - net.at(20), 3, rounding);
}

TEST(BlankOutline, IsFoundForAFormerThatHasItsOwnMind) {
    int n_formed = 0;
    OutlineSearch search;
    search.within = 0.05;
    const auto found = find_outline(straight_flange(), {}, search, made_up_former(n_formed));
    ASSERT_TRUE(found);
    EXPECT_EQ(found->n_rounds, n_formed);
    EXPECT_GT(n_formed, 1);
    EXPECT_TRUE(found->meets(0.05));
    for (const double station : {0.0, 37.0, 100.0}) {
        const double factor = 0.95 + 0.1 * station / length;
        EXPECT_NEAR(found->net.at(station), 10 / factor, 0.05 / 0.95) << station;
    }
    EXPECT_EQ(found->depths.size(), 51U);
}

TEST(BlankOutline, StopsAtTheFirstPartThatIsGoodEnough) {
    int n_formed = 0;
    OutlineSearch search;
    search.within = 5;
    const auto found = find_outline(straight_flange(), {}, search, made_up_former(n_formed));
    EXPECT_EQ(n_formed, 1);
    EXPECT_EQ(found->net.points().size(), 1U);
    // Straight: its miss is that of the factor and the 2 mm, largest at one of the ends.
    EXPECT_TRUE(found->miss_station == 0 || found->miss_station == length);
}

// A former on which the width has no effect: a second part shows it, and no third is formed.
TEST(BlankOutline, GivesUpWhenCorrectingDoesNotHelp) {
    int n_formed = 0;
    const Former stubborn = [&n_formed](const job::Job&) -> Result<FormedPart> {
        ++n_formed;
        return FormedPart{{{0, 13}, {length, 13}}, StopReason::done};
    };
    const auto found = find_outline(straight_flange(), {}, {}, stubborn);
    EXPECT_EQ(n_formed, 2);
    EXPECT_FALSE(found->meets(0.4));
    EXPECT_NEAR(found->largest_miss, 1, rounding);
}

TEST(BlankOutline, TellsWhyNothingWasFormed) {
    const Former stopped = [](const job::Job&) -> Result<FormedPart> {
        return FormedPart{{}, StopReason::stop_requested};
    };
    const auto found = find_outline(straight_flange(), {}, {}, stopped);
    EXPECT_EQ(found->reason, StopReason::stop_requested);
    EXPECT_FALSE(found->meets(100));
}

TEST(BlankOutline, KeepsTheEdgeFlatterThanABlankMayBe) {
    const Former steep = [](const job::Job&) -> Result<FormedPart> {
        return FormedPart{{{0, 12}, {40, 12}, {43, 6}, {46, 12}, {length, 12}}, StopReason::done};
    };
    int n_formed = 0;
    const Former watch = [&](const job::Job& job) {
        ++n_formed;
        if (n_formed > 1) {
            EXPECT_LT(job.blank.flange_widths.steepest(), 1);
        }
        return steep(job);
    };
    ASSERT_TRUE(find_outline(straight_flange(), {}, {}, watch));
    EXPECT_EQ(n_formed, 2);
}

TEST(JobToForm, IsTrimmedToItsNetLineAtItsEnd) {
    job::Job job = straight_flange();
    EXPECT_EQ(job_to_form(job).steps.size(), 2U);
    job.blank.trim_allowance = 2;
    EXPECT_EQ(job_to_form(job).steps.back(), job::StepKind::trim);
    job.steps = {job::StepKind::bend_down, job::StepKind::release, job::StepKind::trim};
    EXPECT_EQ(job_to_form(job).steps.size(), 3U);
}

TEST(JobToForm, KeepsHolesInTheWebAlone) {
    job::Job job = straight_flange();
    job.blank.openings.holes = {{20, -5, 3, true}, {40, 7, 2, false}};
    job.blank.openings.notches = {{60, 3, 3}};
    EXPECT_TRUE(leaves_openings_out(job));
    const outline::Openings kept = job_to_form(job).blank.openings;
    ASSERT_EQ(kept.holes.size(), 1U);
    EXPECT_TRUE(kept.holes.front().is_pin);
    EXPECT_TRUE(kept.notches.empty());
    job.blank.openings = kept;
    EXPECT_FALSE(leaves_openings_out(job));
}

TEST(WithNetWidths, AddsTheAllowance) {
    job::Job job = straight_flange();
    job.blank.trim_allowance = 3;
    const job::Job plain = with_net_widths(job, Profile({{0, 11}}));
    EXPECT_EQ(plain.blank.flange_width, 14);
    EXPECT_TRUE(plain.blank.flange_widths.is_empty());
    const job::Job varying = with_net_widths(job, Profile({{0, 11}, {100, 12}}));
    EXPECT_EQ(varying.blank.flange_width, 15);
    EXPECT_EQ(varying.blank.flange_width_at(50), 14.5);
}

} // namespace
} // namespace flangewright::process
