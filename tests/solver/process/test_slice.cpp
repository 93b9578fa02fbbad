// The slice that stands for the part: one element of its line, at the place that matters.
#include "solver/findings/grain_angle.hpp"
#include "solver/process/slice.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;

TEST(Slice, IsOneElementOfTheLineThatGoesOnAtBothEnds) {
    const job::Job job = support::small_flange(
        BendLine::arc(60, 0.2, outline::Curve::concave), EndKind::free, EndKind::continues
    );
    const Workpiece piece = support::small_workpiece(job, 3);
    const auto n_along = static_cast<double>(piece.mesh.station_lines.size() - 1);
    const job::Job slice = slice_of(job, piece.mesh, {});
    EXPECT_NEAR(slice.blank.line.length(), 60 * 0.2 / n_along, 1e-9);
    EXPECT_NEAR(slice.blank.line.tightest_curvature(), 1.0 / 60, 1e-12);
    EXPECT_FALSE(slice.blank.has_free_end());
}

TEST(Slice, OfSeveralCurvaturesIsCutOutWhereTheEdgeStrainsMost) {
    const job::Job job = support::small_flange(
        BendLine::chain({{6, 0}, {6, 1.0 / 80}}), EndKind::continues, EndKind::continues
    );
    const Workpiece piece = support::small_workpiece(job, 4);
    std::vector<StepResult> steps(1);
    steps[0].findings.edge_strain_most = 0.05;
    steps[0].findings.edge_strain_station = 10;
    EXPECT_NEAR(slice_of(job, piece.mesh, steps).blank.line.tightest_curvature(), 1.0 / 80, 1e-12);
    steps[0].findings.edge_strain_station = 1;
    EXPECT_EQ(slice_of(job, piece.mesh, steps).blank.line.tightest_curvature(), 0);
}

TEST(Slice, KeepsTheStepsAndKnowsNoOrderAlongTheLine) {
    job::Job job =
        support::small_flange(BendLine::straight(6), EndKind::continues, EndKind::continues);
    job.steps.push_back(job::StepKind::trim);
    job.drive.order = job::DriveOrder::ends_first;
    job.drive.passes = {0.5, job.drive.angle};
    const Workpiece piece = support::small_workpiece(job, 3);
    const job::Job slice = slice_of(job, piece.mesh, {});
    EXPECT_EQ(slice.steps, job.steps);
    EXPECT_EQ(slice.drive.order, job::DriveOrder::evenly);
    EXPECT_TRUE(slice.drive.passes.empty());
}

// The grain lies to the slice as it lies to the line where the edge strains most.
TEST(Slice, KeepsTheGrainOfThePlaceItStandsFor) {
    job::Job job = support::small_flange(
        BendLine::chain({{20, 0}, {20, 1.0 / 80}}), EndKind::free, EndKind::free
    );
    job.sheet.rolling_direction = 0.1;
    const Workpiece piece = support::small_workpiece(job, 8);
    std::vector<StepResult> steps(1);
    steps[0].findings.edge_strain_most = 0.05;
    for (const double station : {8.0, 33.0}) {
        steps[0].findings.edge_strain_station = station;
        const job::Job slice = slice_of(job, piece.mesh, steps);
        EXPECT_NEAR(slice.sheet.rolling_direction, findings::grain_angle(job, station), 1e-12);
        EXPECT_NEAR(
            findings::grain_angle(slice, slice.blank.middle_of_part()),
            findings::grain_angle(job, station),
            1e-12
        );
    }
    EXPECT_GT(std::abs(findings::grain_angle(job, 33) - 0.1), 0.1);
}

} // namespace
} // namespace flangewright::process
