#include "solver/findings/flange_development.hpp"
#include "tests/support/flange_job.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <tuple>

namespace flangewright::findings {
namespace {

using outline::BendLine;
using outline::Curve;
using support::degree;

constexpr double rounding = 1e-9;

job::Job with_line(const BendLine& line, double wall_angle = 90 * degree) {
    job::Job job = support::straight_job();
    job.blank.line = line;
    job.block.wall_angle = wall_angle;
    job.drive.angle = wall_angle;
    return job;
}

/// A sheet so thin and a nose so sharp that the closed forms without a bend hold.
job::Job without_bend(double radius, Curve curve) {
    job::Job job = with_line(BendLine::arc(radius, 1, curve));
    job.sheet.thickness = 1e-7;
    job.block.nose_radius = 1e-7;
    return job;
}

TEST(FlangeDevelopment, OfAMixedLineIsThatOfItsTightestPlace) {
    const auto width = [](const BendLine& line) { return developed_flange_width(with_line(line)); };
    const double concave = width(BendLine::arc(80, 1, Curve::concave));
    EXPECT_EQ(width(BendLine::chain({{9, -1.0 / 70}, {9, 0}, {9, 1.0 / 80}})), concave);
    EXPECT_EQ(width(BendLine::chain({{9, 1.0 / 300}, {9, 1.0 / 80}})), concave);
    EXPECT_EQ(
        width(BendLine::chain({{9, -1.0 / 70}, {9, 0}})), width(BendLine::arc(70, 1, Curve::convex))
    );
}

TEST(FlangeDevelopment, KnowsTheEdgeStretchOfEachPiece) {
    const job::Job mixed = with_line(BendLine::chain({{9, -1.0 / 70}, {9, 0}, {9, 1.0 / 80}}));
    const job::Job concave = with_line(BendLine::arc(80, 1, Curve::concave));
    const job::Job convex = with_line(BendLine::arc(70, 1, Curve::convex));
    EXPECT_EQ(edge_stretch_at(mixed, 20, 1.0 / 80), edge_radii(concave, 20).stretch);
    EXPECT_EQ(edge_stretch_at(mixed, 20, -1.0 / 70), edge_radii(convex, 20).stretch);
    EXPECT_EQ(edge_stretch_at(mixed, 20, 0), 0);
    EXPECT_EQ(edge_radii(mixed, 20).stretch, edge_radii(concave, 20).stretch);
}

// Source: stretch-flange-closed-forms, r = 1, printed to five decimals: R, w, edge stretch, h.
TEST(FlangeDevelopment, GivesThePublishedStretchFlange) {
    for (const auto& [R, w, stretch, h] : {
             std::tuple{50.0, 10.0, 0.25, 9.48194},
             std::tuple{25.0, 10.0, 0.666667, 8.9207},
             std::tuple{100.0, 25.0, 0.333333, 23.3654},
             std::tuple{200.0, 25.0, 0.142857, 24.20166},
         }) {
        const job::Job job = without_bend(R, Curve::concave);
        constexpr double printed = 1e-5;
        EXPECT_NEAR(edge_radii(job, w).stretch, stretch, printed);
        EXPECT_NEAR(formed_flange_depth(job, w), h, printed);
    }
}

// Source: iso-16630 (the ratio of the hole-expansion test, read on a page about it, the standard
// itself not seen): 100 (Dh - D0) / D0. A hole of 10 mm that a flange opens to its bend line: the
// stretch of the edge is that ratio, so figures of such tests can stand as limits of an edge.
TEST(FlangeDevelopment, StretchesAHolesEdgeByItsExpansionRatio) {
    constexpr double hole = 10;
    for (const double width : {1.25, 2.5, 5.0}) {
        const job::Job job = without_bend(hole / 2 + width, Curve::concave);
        const EdgeRadii radii = edge_radii(job, width);
        EXPECT_NEAR(2 * radii.flat, hole, rounding);
        const double ratio = (2 * radii.formed - hole) / hole;
        EXPECT_NEAR(radii.stretch, ratio, rounding);
        EXPECT_NEAR(radii.stretch, width / (hole / 2), 1e-6); // a sheet of next to no thickness
    }
}

// Source: solid-section-reference, summary.csv, column edge_hoop_simple = ln((Rb - t/2) / R_hole0),
// six digits printed.
TEST(FlangeDevelopment, GivesTheEdgeStrainOfTheSolidModelsRings) {
    const job::Job small = support::ring_job();
    EXPECT_NEAR(std::log1p(edge_radii(small, 12).stretch), 0.154151, 1e-6);
    EXPECT_NEAR(edge_radii(small, 12).flat, 51, rounding);
    EXPECT_NEAR(edge_radii(small, 12).formed, 59.5, rounding);
    job::Job large = support::ring_job();
    large.blank.line = BendLine::arc(153, 0.5, Curve::concave);
    EXPECT_NEAR(std::log1p(edge_radii(large, 30).stretch), 0.195112, 1e-6);
}

// Source: solid-section-reference, S1, column flange_depth_full. There the fibre at mid-thickness
// stretches by 1 % of the bend allowance (0.055 mm), which the hand calculation leaves out.
TEST(FlangeDevelopment, GivesTheDepthOfTheSolidModelsStrip) {
    const double depth = formed_flange_depth(support::straight_job(), 20);
    EXPECT_NEAR(depth, 4 + 20 - 90 * degree * 3.5, rounding);
    EXPECT_NEAR(depth, 18.5635, 0.065);
}

// Source: solid-section-reference, A2, column flange_depth_full (10.3572): same 0.055 mm, and the
// wall not quite reached (angle 88 deg), so the flange narrows less.
TEST(FlangeDevelopment, ComesNearTheDepthOfTheSolidModelsRing) {
    EXPECT_NEAR(formed_flange_depth(support::ring_job(), 12), 10.3572, 0.02 * 10.3572);
}

TEST(FlangeDevelopment, IsTheInverseOfForming) {
    for (const double angle : {60 * degree, 90 * degree, 115 * degree}) {
        for (const BendLine& line :
             {BendLine::straight(50),
              BendLine::arc(63, 1, Curve::concave),
              BendLine::arc(63, 1, Curve::convex)}) {
            job::Job job = with_line(line, angle);
            job.blank.flange_depth = 14;
            const double width = developed_flange_width(job);
            EXPECT_NEAR(formed_flange_depth(job, width), 14, rounding);
        }
    }
}

// Source: derived here; the strips' law dy/ds = sqrt(r_flat / r_formed) integrated by small steps.
TEST(FlangeDevelopment, AgreesWithStripsTakenOneByOneAtAnyWallAngle) {
    for (const double angle : {50 * degree, 90 * degree, 120 * degree}) {
        for (const Curve curve : {Curve::concave, Curve::convex}) {
            const double k = curve == Curve::concave ? 1 : -1;
            const job::Job job = with_line(BendLine::arc(63, 1, curve), angle);
            const double lo = bend_allowance(job);
            constexpr int n = 20000;
            const double step = (16 - lo) / n;
            double y = 0;
            for (int i = 0; i < n; ++i) {
                const double flat = 63 - k * (lo + (i + 0.5) * step);
                const double formed = 63 - k * (3.5 * std::sin(angle) + y * std::cos(angle));
                y += step * std::sqrt(flat / formed);
            }
            EXPECT_NEAR(formed_flange_depth(job, 16) - mould_setback(job), y, 2e-3); // steps
            const double edge = 63 - k * (3.5 * std::sin(angle) + y * std::cos(angle));
            EXPECT_NEAR(edge_radii(job, 16).formed, edge, 2e-3);
        }
    }
}

TEST(FlangeDevelopment, NarrowsAStretchFlangeAndWidensAShrinkFlange) {
    const double straight = formed_flange_depth(with_line(BendLine::straight(50)), 15);
    const job::Job concave = with_line(BendLine::arc(80, 1, Curve::concave));
    const job::Job convex = with_line(BendLine::arc(80, 1, Curve::convex));
    EXPECT_LT(formed_flange_depth(concave, 15), straight - 0.1);
    EXPECT_GT(formed_flange_depth(convex, 15), straight + 0.1);
    EXPECT_GT(edge_radii(concave, 15).stretch, 0.1);
    EXPECT_LT(edge_radii(convex, 15).stretch, -0.1);
    EXPECT_NEAR(edge_radii(convex, 15).formed, 80 + 3.5, rounding);
}

TEST(FlangeDevelopment, StretchesTheEdgeLessOnAnOpenWall) {
    const BendLine line = BendLine::arc(80, 1, Curve::concave);
    const double open = edge_radii(with_line(line, 60 * degree), 15).stretch;
    const double square = edge_radii(with_line(line, 90 * degree), 15).stretch;
    EXPECT_LT(open, 0.6 * square);
    EXPECT_GT(open, 0.0);
}

TEST(FlangeDevelopment, AddsTheTrimAllowanceOnTheFlat) {
    job::Job job = with_line(BendLine::arc(80, 1, Curve::concave));
    job.blank.flange_depth = 12;
    const double net = developed_flange_width(job);
    job.blank.trim_allowance = 4;
    EXPECT_NEAR(developed_flange_width(job), net + 4, rounding);
}

TEST(FlangeDevelopment, SaysInfiniteWhenTheRadiusLeavesNoRoom) {
    job::Job job = with_line(BendLine::arc(20, 1, Curve::concave));
    job.blank.flange_depth = 19;
    EXPECT_TRUE(std::isinf(developed_flange_width(job)));
    EXPECT_TRUE(std::isinf(edge_radii(job, 20).stretch));
    EXPECT_FALSE(std::isnan(formed_flange_depth(job, 25)));
}

TEST(FlangeDevelopment, StopsAtTheDrivesAngle) {
    job::Job job = support::straight_job();
    job.drive.angle = 45 * degree;
    EXPECT_NEAR(bend_allowance(job), 45 * degree * 3.5, rounding);
    EXPECT_NEAR(mould_setback(job), 4 * std::tan(22.5 * degree), rounding);
}

TEST(FlangeDevelopment, OfADepthAndAWallThatVaryIsThatOfEachStation) {
    job::Job job = support::ring_job();
    job.blank.trim_allowance = 2;
    job.blank.flange_depth = 14;
    job.drive.kind = job::DriveKind::leaf;
    EXPECT_TRUE(developed_flange_widths(job, {}).is_empty());
    const outline::Profile depths({{0, 14}, {40, 10}});
    job.block.wall_angles = outline::Profile({{0, 80 * degree}, {20, job.block.wall_angle}});
    const outline::Profile widths = developed_flange_widths(job, depths);
    ASSERT_EQ(widths.points().size(), 3U);
    const auto alone = [&](double depth, double wall) {
        job::Job there = job;
        there.blank.flange_depth = depth;
        there.block.wall_angle = wall;
        return developed_flange_width(there);
    };
    EXPECT_EQ(widths.at(0), alone(14, 80 * degree));
    EXPECT_EQ(widths.at(20), alone(12, job.block.wall_angle));
    EXPECT_EQ(widths.at(40), alone(10, job.block.wall_angle));
    EXPECT_GT(std::abs(widths.at(0) - alone(14, job.block.wall_angle)), 0.02);
}

} // namespace
} // namespace flangewright::findings
