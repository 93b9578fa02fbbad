// Flanges with holes, notches and tabs, bent down.
#include "solver/findings/part_findings.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/release.hpp"
#include "solver/shell/recover.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <numbers>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;
using outline::Curve;

job::Job strip() {
    job::Job job = support::small_flange(BendLine::straight(40), EndKind::free, EndKind::free);
    job.blank.web_width = 24;
    job.blank.flange_width = 14;
    job.drive.angle = 0.25 * std::numbers::pi; // enough to tell, soon there
    return job;
}

findings::PartFindings look(const Workpiece& piece) {
    const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
    return findings::find_in_part(
        piece.mesh, findings::shape_of(piece.state, fields), fields, piece.job
    );
}

findings::PartFindings bent(const job::Job& job) {
    Workpiece piece = support::small_workpiece(job, 10);
    EXPECT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    return look(piece);
}

// The clamped web far from the bend does nothing, with or without a hole.
TEST(OpenedFlange, HoleInTheClampedWebChangesNothingAtTheFlange) {
    job::Job job = strip();
    const double plain = bent(job).flange_angle_middle.mean;
    job.blank.openings.holes = {{20, -16, 6, false}};
    EXPECT_NEAR(bent(job).flange_angle_middle.mean, plain, 0.003);
}

TEST(OpenedFlange, PinnedHolesStayWhereTheyAreWhileBent) {
    job::Job job = strip();
    job.blank.line = BendLine::arc(80, 0.5, Curve::concave);
    job.blank.openings.holes = {{10, -14, 5, true}, {30, -14, 5, true}};
    Workpiece piece = support::small_workpiece(job, 10);
    ASSERT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    ASSERT_EQ(piece.mesh.rims.size(), 2U);
    double edge_moved = 0;
    for (const int node : piece.mesh.web_edge) {
        edge_moved = std::max(
            edge_moved,
            (piece.state.positions.col(node) - piece.model.start_positions.col(node)).norm()
        );
    }
    EXPECT_GT(edge_moved, 1e-6) << "the pins hold the web, not its edge";
    for (const grid::Rim& rim : piece.mesh.rims) {
        for (const int node : rim.nodes) {
            EXPECT_NEAR(
                (piece.state.positions.col(node) - piece.model.start_positions.col(node))
                    .head<2>()
                    .norm(),
                0,
                1e-12
            );
        }
    }
}

// Where the flange must stretch, a notch parts the edge: it stretches less beside it, and the
// notch's bottom more.
TEST(OpenedFlange, NotchRelievesTheEdgeAndBearsTheStretchItself) {
    job::Job job = strip();
    job.blank.line = BendLine::arc(80, 0.6, Curve::concave);
    const findings::PartFindings plain = bent(job);
    job.blank.openings.notches = {{24, 4, 4}};
    const findings::PartFindings notched = bent(job);
    ASSERT_EQ(notched.openings.size(), 1U);
    EXPECT_GT(notched.openings[0].tension_most, 1.2 * plain.edge_tension_most);
    double beside = 1;
    for (const findings::StationFindings& at : notched.stations) {
        if (std::abs(at.station - 24) < 8) {
            beside = std::min(beside, at.edge_strain);
        }
    }
    EXPECT_LT(beside, 0.5 * plain.edge_tension_most);
}

TEST(OpenedFlange, TabIsBentWithTheFlangeAndReleased) {
    job::Job job = strip();
    job.blank.openings.tabs = {{14, 26, 4}};
    Workpiece piece = support::small_workpiece(job, 10);
    ASSERT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    ASSERT_EQ(release(piece, {}, {}).reason, StopReason::done);
    const findings::PartFindings found = look(piece);
    double shallowest = 1e9;
    double deepest = 0;
    for (const findings::StationFindings& at : found.stations) {
        shallowest = std::min(shallowest, at.flange_depth);
        deepest = std::max(deepest, at.flange_depth);
    }
    EXPECT_NEAR(deepest - shallowest, 4, 0.2);
}

// A hole in a stretched flange: its rim is a cut edge in the way of the stretch.
TEST(OpenedFlange, HoleInTheFlangeIsPulledMoreThanTheSheetRoundIt) {
    job::Job job = strip();
    job.blank.line = BendLine::arc(80, 0.6, Curve::concave);
    const findings::PartFindings plain = bent(job);
    job.blank.openings.holes = {{24, 10, 3, false}};
    const findings::PartFindings holed = bent(job);
    ASSERT_EQ(holed.openings.size(), 1U);
    EXPECT_GT(holed.openings[0].tension_most, plain.edge_tension_most);
    EXPECT_GT(*holed.openings[0].most_diameter, 3.05);
}

} // namespace
} // namespace flangewright::process
