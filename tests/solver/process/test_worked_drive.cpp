// Bend-down in passes and worked along the line, on small coarse flanges.
#include "solver/findings/part_findings.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/drive_passes.hpp"
#include "solver/process/pass_watch.hpp"
#include "solver/shell/recover.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::process {
namespace {

using job::DriveOrder;
using job::EndKind;
using outline::BendLine;
using outline::Curve;

constexpr double degree = std::numbers::pi / 180;
const BendLine arc = BendLine::arc(60, 0.4, Curve::concave); // 24 mm long
constexpr int n_along = 8;

job::Job flange_on(const BendLine& line, DriveOrder order, std::vector<double> passes) {
    job::Job job = support::small_flange(line, EndKind::free, EndKind::free);
    job.drive.order = order;
    job.drive.passes = std::move(passes);
    job.drive.front = 18;
    return job;
}

std::vector<double> three_passes() {
    return {30 * degree, 60 * degree, 90 * degree};
}

struct Driven {
    Workpiece piece;
    StepReport report;
    DriveRecord record;
    findings::PartFindings held;
};

Driven driven(const job::Job& job, int n_elements = n_along) {
    Driven driven{support::small_workpiece(job, n_elements), {}, {}, {}};
    PassWatch watch(driven.piece, driven.record);
    driven.report =
        bend_down(driven.piece, {}, {}, [&watch](const Workpiece& now, double share_done) {
            watch.look(now, share_done);
        });
    watch.finish(driven.piece, driven.report.reason);
    const shell::SheetFields fields = shell::recover_fields(driven.piece.model, driven.piece.state);
    driven.held = findings::find_in_part(
        driven.piece.mesh, findings::shape_of(driven.piece.state, fields), fields, job
    );
    return driven;
}

// The same path, only that it comes to each pass's end exactly.
TEST(WorkedDrive, EvenlyInManyPassesEndsAsInOne) {
    const Driven one = driven(flange_on(arc, DriveOrder::evenly, {}));
    std::vector<double> angles;
    for (int i = 1; i <= 9; ++i) {
        angles.push_back(10 * i * degree);
    }
    const Driven many = driven(flange_on(arc, DriveOrder::evenly, angles));
    ASSERT_EQ(one.report.reason, StopReason::done);
    ASSERT_EQ(many.report.reason, StopReason::done);
    const double change = many.held.edge_strain_most / one.held.edge_strain_most - 1;
    RecordProperty("edge_strain_change", std::to_string(change));
    EXPECT_LT(std::abs(change), 0.03);
    EXPECT_NEAR(many.held.flange_angle.mean, one.held.flange_angle.mean, 0.1 * degree);
    ASSERT_EQ(many.record.passes.size(), 9U);
    for (std::size_t i = 1; i < 9; ++i) {
        EXPECT_GT(many.record.passes[i].flange_angle, many.record.passes[i - 1].flange_angle);
    }
}

// The stroke that belongs to an angle is that of a straight flange laid round the nose; a real one
// bows and lies a little off, by up to some degrees.
TEST(WorkedDrive, ComesNearTheAngleOfEachPass) {
    constexpr double bow = 5 * degree;
    for (const DriveOrder order : {DriveOrder::evenly, DriveOrder::ends_first}) {
        const Driven passes = driven(flange_on(arc, order, three_passes()));
        ASSERT_EQ(passes.report.reason, StopReason::done);
        ASSERT_EQ(passes.record.passes.size(), 3U);
        for (const PassFigures& pass : passes.record.passes) {
            EXPECT_NEAR(pass.flange_angle, pass.angle_wanted, bow);
        }
    }
}

// A line longer than its fronts: metal that the ends have driven ahead is there for the middle.
TEST(WorkedDrive, EndsFirstLeavesAnotherEdgeThanEvenly) {
    const BendLine longer = BendLine::arc(80, 0.5, Curve::concave); // 40 mm long
    job::Job job = flange_on(longer, DriveOrder::evenly, three_passes());
    job.blank.flange_width = 12;
    job.drive.front = 24;
    const Driven even = driven(job, 12);
    job.drive.order = DriveOrder::ends_first;
    const Driven worked = driven(job, 12);
    ASSERT_EQ(even.report.reason, StopReason::done);
    ASSERT_EQ(worked.report.reason, StopReason::done);
    EXPECT_EQ(worked.report.share_done, 1); // to the end of the last pass
    RecordProperty("even", std::to_string(even.held.edge_strain_most));
    RecordProperty("ends_first", std::to_string(worked.held.edge_strain_most));
    EXPECT_LT(worked.held.edge_strain_most, 0.97 * even.held.edge_strain_most);
    EXPECT_GT(worked.held.edge_strain_most, 0.5 * even.held.edge_strain_most);
    EXPECT_NEAR(worked.held.flange_angle.mean, even.held.flange_angle.mean, 3 * degree);
    EXPECT_LT(worked.report.penetration, 0.01);
}

// The mirror image of a drive is the drive of the mirror image.
TEST(WorkedDrive, FromTheEndMirrorsFromTheStart) {
    constexpr double asymmetry = 2e-3; // mm; Newton's tolerance on the way, grown along the path
    job::Job job = flange_on(arc, DriveOrder::from_start, {40 * degree});
    job.drive.angle = 40 * degree;
    const Driven one = driven(job);
    job.drive.order = DriveOrder::from_end;
    const Driven other = driven(job);
    ASSERT_EQ(one.report.reason, StopReason::done);
    ASSERT_EQ(other.report.reason, StopReason::done);
    const Eigen::Index last = one.record.stations.size() - 1;
    for (Eigen::Index i = 0; i <= last; ++i) {
        const int here = one.piece.mesh.free_edge[static_cast<std::size_t>(i)];
        const int there = one.piece.mesh.free_edge[static_cast<std::size_t>(last - i)];
        EXPECT_NEAR(
            one.piece.state.positions(2, here), other.piece.state.positions(2, there), asymmetry
        );
    }
    // The start was bent first and far, the end not yet: what is worked is not what is even.
    const Eigen::VectorXd mirrored = other.record.stretched.reverse();
    EXPECT_LT((one.record.stretched - mirrored).cwiseAbs().maxCoeff(), 1e-3);
    EXPECT_GT((one.record.stretched - one.record.stretched.reverse()).cwiseAbs().maxCoeff(), 1e-3);
}

// In a channel wider than the angle asked for the last passes have no stroke left.
TEST(WorkedDrive, APassWithoutAStrokeChangesNothing) {
    const job::Job job =
        flange_on(arc, DriveOrder::ends_first, {30 * degree, 89.8 * degree, 90 * degree});
    const std::vector<double> strokes = pass_strokes(job);
    ASSERT_EQ(strokes[2], strokes[3]);
    const Driven worked = driven(job);
    ASSERT_EQ(worked.report.reason, StopReason::done);
    const PassFigures& before = worked.record.passes[1];
    const PassFigures& after = worked.record.passes[2];
    EXPECT_NEAR(after.edge_strain, before.edge_strain, 1e-3 * std::abs(before.edge_strain));
    EXPECT_NEAR(after.flange_angle, before.flange_angle, 0.05 * degree);
}

TEST(WorkedDrive, TellsItsProgressByItsPath) {
    const job::Job job = flange_on(arc, DriveOrder::ends_first, {20 * degree});
    Workpiece piece = support::small_workpiece(job, n_along);
    std::stop_source source;
    std::vector<double> shares;
    Monitor monitor;
    monitor.stop = source.get_token();
    monitor.on_progress = [&](const Progress& progress) {
        shares.push_back(progress.share_done);
        if (shares.size() == 12) {
            source.request_stop();
        }
    };
    const StepReport report = bend_down(piece, {}, monitor, {});
    EXPECT_EQ(report.reason, StopReason::stop_requested);
    EXPECT_DOUBLE_EQ(shares.back(), report.share_done);
    EXPECT_GT(shares.back(), shares.front());
}

} // namespace
} // namespace flangewright::process
