#include "solver/findings/flange_development.hpp"
#include "solver/findings/lip_development.hpp"
#include "tests/support/flange_job.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::findings {
namespace {

using job::LipSide;
using outline::BendLine;
using outline::Curve;
using support::degree;

constexpr double integration_error = 1e-5; // of the midpoint rule with 400 steps, mm

job::Job with_lip(const BendLine& line, LipSide side, double flange_depth, double lip_depth) {
    job::Job job = support::straight_job();
    job.blank.line = line;
    job.blank.flange_depth = flange_depth;
    job.return_bend = job::ReturnBend{.side = side, .lip_depth = lip_depth, .nose_radius = 3};
    return job;
}

/// A sheet so thin and noses so sharp that the closed forms without a bend hold.
job::Job without_bends(const BendLine& line, LipSide side) {
    job::Job job = with_lip(line, side, 20, 10);
    job.sheet.thickness = 1e-7;
    job.block.nose_radius = 1e-7;
    job.return_bend->nose_radius = 1e-7;
    return job;
}

// Source: faa-h-8083-31, chapter 4, U-channel 1.00 x 2.00 x 1.00 in, T .040, R .16: flats .800,
// 1.600, .800.
TEST(LipDevelopment, GivesTheFlatsOfThePublishedChannel) {
    constexpr double inch = 25.4;
    job::Job job = with_lip(BendLine::straight(60), LipSide::under_web, 2 * inch, inch);
    job.sheet.thickness = 0.040 * inch;
    job.block.nose_radius = 0.16 * inch;
    job.return_bend->nose_radius = 0.16 * inch;
    EXPECT_NEAR(straight_between_bends(job), 1.6 * inch, 1e-9);
    const LipDevelopment lip = develop_lip(job);
    EXPECT_NEAR(lip.bend_begin, bend_allowance(job) + 1.6 * inch, integration_error);
    EXPECT_NEAR(lip.width, lip_bend_allowance(job) + 0.8 * inch, integration_error);
}

TEST(LipDevelopment, OfAStraightLineStretchesNoEdge) {
    for (const LipSide side : {LipSide::under_web, LipSide::away_from_web}) {
        EXPECT_EQ(lip_edge_stretch(with_lip(BendLine::straight(60), side, 20, 10)), 0);
    }
}

// Derived here: strips of flange and lip keep sqrt(radius) * width, so the flat ring from R inward
// has the same integral of sqrt(r) as the flange's wall at R and the lip's disc beside it.
TEST(LipDevelopment, KeepsTheIntegralOfTheRootsOfTheRadii) {
    constexpr double R = 100;
    const auto between = [](double r1, double r2) {
        return 2.0 / 3.0 * (std::pow(r2, 1.5) - std::pow(r1, 1.5));
    };
    for (const LipSide side : {LipSide::under_web, LipSide::away_from_web}) {
        const job::Job job = without_bends(BendLine::arc(R, 1, Curve::concave), side);
        const LipDevelopment lip = develop_lip(job);
        const double bend = R - lip.bend_begin;
        const double edge = bend - lip.width;
        EXPECT_NEAR(between(bend, R), std::sqrt(R) * 20, 1e-4);
        const bool is_under = side == LipSide::under_web;
        const double formed = is_under ? R + 10 : R - 10;
        EXPECT_NEAR(between(edge, bend), std::abs(between(R, formed)), 1e-3);
        EXPECT_NEAR(lip_edge_stretch(job), formed / edge - 1, 1e-6);
    }
}

TEST(LipDevelopment, TurnedUnderTheWebStretchesAConcaveEdgeMost) {
    const BendLine line = BendLine::arc(150, 1, Curve::concave);
    const double under = lip_edge_stretch(with_lip(line, LipSide::under_web, 20, 12));
    const double away = lip_edge_stretch(with_lip(line, LipSide::away_from_web, 20, 12));
    EXPECT_GT(under, away + 0.1);
    EXPECT_GT(away, 0);
    const BendLine convex = BendLine::arc(150, 1, Curve::convex);
    EXPECT_LT(lip_edge_stretch(with_lip(convex, LipSide::under_web, 20, 12)), -0.1);
}

TEST(LipDevelopment, SaysInfinityWhereTheRadiusLeavesNoMetal) {
    const job::Job job = with_lip(BendLine::arc(30, 1, Curve::concave), LipSide::under_web, 20, 20);
    EXPECT_TRUE(std::isinf(develop_lip(job).width));
    EXPECT_TRUE(std::isinf(lip_edge_stretch(job)));
}

TEST(LipDevelopment, LeavesTheFlangeToTheSetbackOfTheLip) {
    job::Job job = with_lip(BendLine::straight(60), LipSide::under_web, 20, 10);
    EXPECT_NEAR(straight_between_bends(job), 20 - 4 - 4, 1e-12);
    job.return_bend->angle = 45 * degree;
    EXPECT_NEAR(lip_setback(job), 4 * std::tan(22.5 * degree), 1e-12);
    EXPECT_NEAR(lip_bend_allowance(job), 3.5 * 45 * degree, 1e-12);
}

} // namespace
} // namespace flangewright::findings
