// The search for the outline with made-up formers; with the solver: test_blank_outline_slow.cpp.
#include "solver/findings/flange_development.hpp"
#include "solver/findings/lip_development.hpp"
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

TEST(OutlineGuess, DevelopsFlangeAndLipTogether) {
    job::Job job = straight_flange();
    job.blank.flange_depth = 20;
    job.return_bend = job::ReturnBend{.lip_depth = 9, .nose_radius = 2, .corner_radius = 3};
    const findings::LipDevelopment lip = findings::develop_lip(job);
    EXPECT_NEAR(guessed_net_widths(job, {}).at(50), lip.bend_begin + lip.width, rounding);
    EXPECT_NEAR(guessed_lip_begins(job).at(50), lip.bend_begin, rounding);
    // A lip whose edge is stretched narrows, so that it needs more width there.
    job.blank.line = BendLine::chain({{50, 1.0 / 80}, {50, 0}});
    const Profile net = guessed_net_widths(job, {});
    EXPECT_GT(net.at(10), net.at(90));
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

TEST(WithoutFlangeOpenings, KeepsHolesInTheWebAlone) {
    job::Job job = straight_flange();
    job.blank.openings.holes = {{20, -5, 3, true}, {40, 7, 2, false}};
    job.blank.openings.notches = {{60, 3, 3}};
    const outline::Openings kept = without_flange_openings(job).blank.openings;
    ASSERT_EQ(kept.holes.size(), 1U);
    EXPECT_TRUE(kept.holes.front().is_pin);
    EXPECT_TRUE(kept.notches.empty());
}

job::Job lip_flange() {
    job::Job job = straight_flange();
    job.blank.flange_depth = 20;
    job.return_bend = job::ReturnBend{.lip_depth = 9, .nose_radius = 2, .corner_radius = 3};
    const findings::LipDevelopment lip = findings::develop_lip(job);
    job.blank.lip_width = lip.width;
    job.blank.flange_width = lip.bend_begin + lip.width;
    return job;
}

/// A lip that comes out 2 mm too deep at the start, and a flange that is 0.3 mm too shallow.
Result<FormedPart> too_deep_lip(const job::Job& job) {
    FormedPart part;
    for (int i = 0; i <= 50; ++i) {
        const double station = length * i / 50;
        const double lip = job.blank.flange_width_at(station) - lip_flange().blank.flange_width;
        part.depths.push_back({station, 9 + lip + 2 * (1 - station / length)});
        part.flange_depths.push_back({station, 19.7});
    }
    return part;
}

TEST(BlankOutline, MeetsTheLipsDepthAndTellsTheFlanges) {
    const auto found = find_outline(lip_flange(), {}, {}, too_deep_lip);
    ASSERT_TRUE(found);
    EXPECT_TRUE(found->meets(0.4));
    EXPECT_FALSE(found->meets(0.29)); // the flange is 0.3 mm off, which no width changes
    EXPECT_LT(found->largest_miss, 0.1);
    EXPECT_EQ(found->depths.front().wanted, 9);
    EXPECT_NEAR(largest_of(found->flange_depths).miss, -0.3, rounding);
    EXPECT_NEAR(found->net.at(0) - found->net.at(length), -2, 0.1);
}

TEST(BlankOutline, LeavesTheLipsBendWhereItWas) {
    const job::Job job = lip_flange();
    const double begin = job.blank.lip_begin();
    const job::Job wider = with_net_widths(job, Profile({{0, 32}, {100, 34}}));
    EXPECT_NEAR(wider.blank.lip_begin(), begin, rounding);
    EXPECT_EQ(wider.blank.flange_width, 34);
}

TEST(BlankOutline, IsFormedWithoutOpeningsWhereThatCannotBeDoneWithThem) {
    job::Job job = straight_flange();
    job.blank.openings.holes = {{40, 7, 2, false}};
    const Former picky = [](const job::Job& formed) -> Result<FormedPart> {
        if (!formed.blank.openings.holes.empty()) {
            return tl::unexpected(OutsideProblem{"meshing", "folds over", "move it"});
        }
        return FormedPart{{{0, 12}, {length, 12}}, StopReason::done};
    };
    const auto found = find_outline(job, {}, {}, picky);
    ASSERT_TRUE(found);
    EXPECT_TRUE(found->leaves_openings_out);
    EXPECT_TRUE(found->meets(0.01));
    int n_formed = 0;
    const auto whole = find_outline(job, {}, {}, made_up_former(n_formed));
    EXPECT_FALSE(whole->leaves_openings_out);
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
