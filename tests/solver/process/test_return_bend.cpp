// The flange's edge bent into a lip over a second nose.
#include "solver/findings/interior_neck.hpp"
#include "solver/findings/lip_development.hpp"
#include "solver/findings/part_findings.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/loose_part.hpp"
#include "solver/process/release.hpp"
#include "solver/process/return_bend.hpp"
#include "solver/process/run_job.hpp"
#include "solver/process/run_state.hpp"
#include "solver/process/second_block.hpp"
#include "solver/process/set_on_block.hpp"
#include "solver/shell/recover.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::process {
namespace {

using job::EndKind;
using job::LipSide;
using job::StepKind;
using outline::BendLine;
using outline::Curve;

constexpr double degree = std::numbers::pi / 180;
constexpr double contact_gives = 0.01; // mm: its ramp

job::Job lip_job(BendLine line, LipSide side) {
    job::Job job = support::small_flange(std::move(line), EndKind::continues, EndKind::continues);
    job.block.nose_radius = 2;
    job.drive.clearance = 1.1;
    job.blank.flange_depth = 14;
    job.return_bend = job::ReturnBend{
        .side = side, .lip_depth = 8, .nose_radius = 2, .clearance = 1.1, .corner_radius = 3};
    const findings::LipDevelopment lip = findings::develop_lip(job);
    job.blank.flange_width = lip.bend_begin + lip.width;
    job.blank.lip_width = lip.width;
    return job;
}

job::Job strip_job(LipSide side) {
    return lip_job(BendLine::straight(1), side);
}

job::Job ring_job(LipSide side) {
    return lip_job(BendLine::arc(120, 4 * degree, Curve::concave), side);
}

// Bent down, not released, and with its lip bent.
Workpiece with_lip(const job::Job& job) {
    Workpiece piece = support::small_workpiece(job, 1);
    EXPECT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    prepare_step(piece, StepKind::return_bend);
    EXPECT_EQ(return_bend(piece, {}, {}).reason, StopReason::done);
    return piece;
}

findings::PartFindings look_at(const Workpiece& piece) {
    const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
    return findings::find_in_part(
        piece.mesh, findings::shape_of(piece.state, fields), fields, piece.job
    );
}

TEST(ReturnBend, DrivesTheLipHomeWithTheFlangeFlatOnItsBlock) {
    for (const LipSide side : {LipSide::under_web, LipSide::away_from_web}) {
        const Workpiece piece = with_lip(strip_job(side));
        const SecondSection section = second_section(piece.job);
        const Eigen::VectorXd half = shell::half_thickness(piece.model, piece.state);
        for (const int node : clamped_flange(piece)) {
            EXPECT_NEAR(in_second_section(piece, section, node)[1], half[node], contact_gives);
        }
        const findings::PartFindings found = look_at(piece);
        EXPECT_NEAR(found.flange_angle.mean, 90 * degree, 0.1 * degree);
        ASSERT_TRUE(found.lip);
        EXPECT_NEAR(found.lip->angle.mean, 90 * degree, 1.5 * degree);
        // The drawing's depths come out: the sheet keeps its length but for the bends' own stretch.
        EXPECT_NEAR(found.flange_depth_mean, 14, 0.15);
        EXPECT_NEAR(found.lip->depth_mean, 8, 0.15);
        EXPECT_GT(piece.held_by.on_positions.norm(), 1); // N
    }
}

// The lip's own bend knows nothing of the side it goes to in a straight strip.
TEST(ReturnBend, SpringsBackAlikeToEitherSideOfAStraightStrip) {
    std::vector<double> angles;
    for (const LipSide side : {LipSide::under_web, LipSide::away_from_web}) {
        Workpiece piece = with_lip(strip_job(side));
        const double held = look_at(piece).lip->angle.mean;
        ASSERT_EQ(release(piece, {}, {}).reason, StopReason::done);
        angles.push_back(look_at(piece).lip->angle.mean);
        EXPECT_GT(held - angles.back(), 1 * degree);
        EXPECT_LT(held - angles.back(), 6 * degree);
    }
    EXPECT_NEAR(angles[0], angles[1], 0.2 * degree);
}

// Ring: the edge's stretch is its radius now over its radius flat, and the radius follows from the
// drawing if the tools bring the lip home.
TEST(ReturnBend, StretchesTheLipsEdgeOfARingAsTheHandCalculationSays) {
    for (const LipSide side : {LipSide::under_web, LipSide::away_from_web}) {
        const Workpiece piece = with_lip(ring_job(side));
        const double by_hand = findings::lip_edge_stretch(piece.job);
        const double stretch = std::expm1(look_at(piece).edge_strain_most);
        EXPECT_NEAR(stretch, by_hand, 0.015);
        EXPECT_GT(by_hand, side == LipSide::under_web ? 0.25 : 0.1);
    }
}

TEST(ReturnBend, StretchesTheFaceOnTheOutsideOfItsBend) {
    for (const LipSide side : {LipSide::under_web, LipSide::away_from_web}) {
        const Workpiece piece = with_lip(strip_job(side));
        const double outer_fibre = std::log1p(1.0 / (2 * 2 + 1));
        EXPECT_NEAR(look_at(piece).lip->bend_strain_most, outer_fibre, 0.35 * outer_fibre);
    }
}

// A part with a lip goes back on its block: the lip lies past the block's wall, not in it.
TEST(ReturnBend, LeavesAPartThatCanBeSetOnItsBlockAgain) {
    Workpiece piece = with_lip(ring_job(LipSide::under_web));
    ASSERT_EQ(release(piece, {}, {}).reason, StopReason::done);
    const double released = look_at(piece).lip->angle.mean;
    ASSERT_EQ(set_on_block(piece, {}, {}).reason, StopReason::done);
    EXPECT_NEAR(look_at(piece).lip->angle.mean, released, 0.5 * degree);
    EXPECT_NEAR(driven_angle(piece), 90 * degree, 12 * degree); // the flange's, not the lip's
}

TEST(ReturnBend, StopsWholeWhenAsked) {
    Workpiece piece = support::small_workpiece(strip_job(LipSide::under_web), 1);
    ASSERT_EQ(bend_down(piece, {}, {}, {}).reason, StopReason::done);
    prepare_step(piece, StepKind::return_bend);
    std::stop_source stop;
    const StepReport report = return_bend(
        piece,
        {},
        {.on_progress = {}, .stop = stop.get_token()},
        [&stop](const Workpiece&, double share) {
            if (share > 0.4) {
                stop.request_stop();
            }
        }
    );
    EXPECT_EQ(report.reason, StopReason::stop_requested);
    EXPECT_GT(report.angle_reached, 20 * degree);
    EXPECT_LT(report.angle_reached, 80 * degree);
    EXPECT_TRUE(piece.state.positions.allFinite());
}

job::Job whole_job() {
    job::Job job = ring_job(LipSide::under_web);
    job.accuracy = job::Accuracy::quick;
    job.annealed = job.sheet.material;
    job.steps = {
        StepKind::bend_down,
        StepKind::release,
        StepKind::anneal,
        StepKind::set_on_block,
        StepKind::return_bend,
        StepKind::release};
    return job;
}

const RunOptions plain{.n_threads = 2, .n_frames = 2, .measure_bare_refactor = false};

TEST(ReturnBend, RunLeftOnItsWayGoesOnToTheSameEnd) {
    std::vector<RunState> kept;
    RunOptions keeping = plain;
    keeping.seconds_between_states = 0;
    keeping.keep_state = [&kept](const RunState& state) {
        if (state.finished.size() == 4 && state.under_way) {
            kept.push_back(state);
        }
    };
    const Result<JobResult> whole = run_job(whole_job(), keeping, {});
    ASSERT_TRUE(whole);
    ASSERT_EQ(whole->reason, StopReason::done);
    ASSERT_GT(kept.size(), 20U);
    for (const std::size_t i : {std::size_t{2}, kept.size() / 2, kept.size() - 2}) {
        RunOptions going_on = plain;
        going_on.begin_from = &kept[i];
        const Result<JobResult> resumed = run_job(whole_job(), going_on, {});
        ASSERT_TRUE(resumed);
        EXPECT_EQ(resumed->steps.back().state.positions, whole->steps.back().state.positions);
        EXPECT_EQ(resumed->history.size(), whole->history.size());
    }
}

TEST(ReturnBend, CountsWhatTheLipUsesFromTheAnneal) {
    const Result<JobResult> run = run_job(whole_job(), plain, {});
    ASSERT_TRUE(run);
    const findings::PartFindings& flange = run->steps[1].findings;
    const findings::PartFindings& lip = run->steps[5].findings;
    EXPECT_FALSE(flange.lip);
    ASSERT_TRUE(lip.lip);
    ASSERT_TRUE(lip.lip->springback_middle);
    EXPECT_NEAR(lip.edge_tension_used, lip.edge_tension_most - flange.edge_tension_most, 0.005);
    EXPECT_GT(lip.edge_tension_used, 0.03);
    EXPECT_GT(lip.lip->bend_strain_used, 0.1);
    EXPECT_LT(lip.bend_strain_used, 0.05); // the flange's own bend was softened
    ASSERT_EQ(run->verdict.limits.size(), 4U);
    EXPECT_EQ(run->verdict.limits[2].place, "outer fibre of the lip's bend");
    EXPECT_GE(run->verdict.limits[2].reached, 0.2);
    EXPECT_EQ(run->verdict.limits[3].place, findings::interior_place);
    ASSERT_TRUE(run->by_hand.lip);
}

} // namespace
} // namespace flangewright::process
