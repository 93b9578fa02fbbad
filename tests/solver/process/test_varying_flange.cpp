// A flange whose depth or wall angle varies along the line, on small coarse flanges: slowly enough
// that each station should come out as a long flange of the depth and angle there.
#include "solver/findings/part_findings.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/loose_part.hpp"
#include "solver/process/release.hpp"
#include "solver/process/set_on_block.hpp"
#include "solver/shell/recover.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright::process {
namespace {

using job::DriveKind;
using job::EndKind;
using outline::BendLine;
using outline::Profile;

constexpr double degree = std::numbers::pi / 180;
constexpr double length = 80;
constexpr int n_along = 10;

job::Job long_flange() {
    job::Job job =
        support::small_flange(BendLine::straight(length), EndKind::continues, EndKind::continues);
    job.drive.kind = DriveKind::leaf;
    job.drive.clearance = 1.05;
    return job;
}

struct Formed {
    Workpiece piece;
    std::vector<findings::StationFindings> held;
    std::vector<findings::StationFindings> released;
};

std::vector<findings::StationFindings> stations_of(const Workpiece& piece) {
    const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
    return findings::find_in_part(
               piece.mesh, findings::shape_of(piece.state, fields), fields, piece.job
    )
        .stations;
}

Formed formed(const job::Job& job, int n_elements) {
    Formed formed{support::small_workpiece(job, n_elements), {}, {}};
    EXPECT_EQ(bend_down(formed.piece, {}, {}, {}).reason, StopReason::done);
    formed.held = stations_of(formed.piece);
    EXPECT_EQ(release(formed.piece, {}, {}).reason, StopReason::done);
    formed.released = stations_of(formed.piece);
    return formed;
}

/// A slice of a long flange as it is at one station.
Formed slice_at(const job::Job& job, double station) {
    job::Job slice = job;
    slice.blank.line = BendLine::straight(1);
    slice.blank.flange_width = job.blank.flange_width_at(station);
    slice.blank.flange_widths = {};
    slice.block.wall_angle = slice.drive.angle = job.block.wall_angle_at(station);
    slice.block.wall_angles = {};
    return formed(slice, 1);
}

TEST(VaryingFlange, ATaperedOneBendsAtEachStationAsAnEvenOneOfItsDepth) {
    job::Job job = long_flange();
    job.blank.flange_width = 12;
    job.blank.flange_widths = Profile({{0, 12}, {length, 9}});
    const Formed tapered = formed(job, n_along);
    double off_held = 0;
    double off_springback = 0;
    for (const std::size_t i : {std::size_t{2}, std::size_t{5}, std::size_t{8}}) {
        const Formed even = slice_at(job, tapered.held[i].station);
        const double held = even.held[0].flange_angle;
        const double springback = held - even.released[0].flange_angle;
        off_held = std::max(off_held, std::abs(tapered.held[i].flange_angle - held));
        off_springback = std::max(
            off_springback,
            std::abs(tapered.held[i].flange_angle - tapered.released[i].flange_angle - springback)
        );
        EXPECT_NEAR(tapered.held[i].flange_depth, even.held[0].flange_depth, 0.05);
    }
    RecordProperty("off_held_deg", std::to_string(off_held / degree));
    RecordProperty("off_springback_deg", std::to_string(off_springback / degree));
    // Measured 0.027 and 0.043 deg: neighbours of other depth hold each other a little.
    EXPECT_LT(off_held, 0.1 * degree);
    EXPECT_LT(off_springback, 0.1 * degree);
}

TEST(VaryingFlange, ALeafBringsEachStationToTheWallThere) {
    job::Job job = long_flange();
    job.block.wall_angles = Profile({{0, 70 * degree}, {length, 90 * degree}});
    job.blank.flange_width = 10;
    const Formed bevelled = formed(job, n_along);
    double off_wall = 0;
    double off_slice = 0;
    for (const findings::StationFindings& at : bevelled.held) {
        const double wall = job.block.wall_angle_at(at.station);
        off_wall = std::max(off_wall, std::abs(at.flange_angle - wall));
    }
    for (const std::size_t i : {std::size_t{2}, std::size_t{5}, std::size_t{8}}) {
        const Formed even = slice_at(job, bevelled.held[i].station);
        off_slice = std::max(
            off_slice, std::abs(bevelled.held[i].flange_angle - even.held[0].flange_angle)
        );
    }
    RecordProperty("off_wall_deg", std::to_string(off_wall / degree));
    RecordProperty("off_slice_deg", std::to_string(off_slice / degree));
    // Measured 0.80 and 0.040 deg: on an even wall the leaf's play leaves as much.
    EXPECT_LT(off_wall, 1 * degree);
    EXPECT_LT(off_slice, 0.1 * degree);
    EXPECT_GT(bevelled.held.back().flange_angle, bevelled.held.front().flange_angle + 18 * degree);
}

TEST(VaryingFlange, OfOneValueIsFormedToTheBitAsThePlainOne) {
    for (const DriveKind kind : {DriveKind::leaf, DriveKind::wiper}) {
        job::Job plain = long_flange();
        plain.blank.line = BendLine::arc(60, 0.2, outline::Curve::concave);
        plain.drive.kind = kind;
        job::Job written = plain;
        written.blank.flange_widths = Profile({{0, plain.blank.flange_width}});
        written.block.wall_angles = Profile({{0, plain.block.wall_angle}});
        const Formed one = formed(plain, 2);
        const Formed other = formed(written, 2);
        EXPECT_EQ(one.piece.state.positions, other.piece.state.positions);
        EXPECT_EQ(one.piece.state.directors, other.piece.state.directors);
    }
}

TEST(VaryingFlange, IsTrimmedToItsNetEdgeAndGoesBackOnItsBlock) {
    job::Job job = long_flange();
    job.blank.line = BendLine::arc(60, 0.4, outline::Curve::concave);
    job.blank.flange_width = 12;
    job.blank.trim_allowance = 2;
    job.blank.flange_widths = Profile({{0, 12}, {24, 10}});
    job.block.wall_angles = Profile({{0, 85 * degree}, {24, 90 * degree}});
    job.steps = {
        job::StepKind::bend_down,
        job::StepKind::release,
        job::StepKind::trim,
        job::StepKind::set_on_block};
    Formed part = formed(job, 4);
    cut_allowance(part.piece);
    for (const int node : part.piece.mesh.free_edge) {
        const double net = 10 - 2 * part.piece.mesh.station[node] / 24;
        EXPECT_NEAR(part.piece.mesh.distance[node], net, 1e-9);
    }
    EXPECT_EQ(part.piece.job.blank.flange_width, 10);
    EXPECT_NEAR(part.piece.job.blank.flange_width_at(24), 8, 1e-12);
    EXPECT_EQ(set_on_block(part.piece, {}, {}, {}).reason, StopReason::done);
}

TEST(VaryingFlange, AWiperPassesTheDeepestPlace) {
    job::Job job = long_flange();
    job.blank.line = BendLine::straight(24);
    job.drive.kind = DriveKind::wiper;
    job.drive.clearance = 1.4;
    job.blank.flange_width = 12;
    job.blank.flange_widths = Profile({{0, 9}, {24, 12}});
    Workpiece piece = support::small_workpiece(job, 3);
    ASSERT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    for (const findings::StationFindings& at : stations_of(piece)) {
        EXPECT_NEAR(at.flange_angle, 90 * degree, 5 * degree); // the wiper's play leaves it open
    }
}

} // namespace
} // namespace flangewright::process
