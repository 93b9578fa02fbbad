// A straight flange worked along its line: no curve stretches its edge, so it ends as the even one.
#include "solver/findings/part_findings.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/drive_passes.hpp"
#include "solver/shell/recover.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::process {
namespace {

constexpr double degree = std::numbers::pi / 180;

findings::PartFindings held(job::DriveOrder order) {
    job::Job job = support::small_flange(
        outline::BendLine::straight(80), job::EndKind::free, job::EndKind::free
    );
    job.drive.order = order;
    job.drive.passes = {30 * degree, 60 * degree, 90 * degree};
    job.drive.front = 36; // four flange widths
    Workpiece piece = support::small_workpiece(job, 16);
    const StepReport report = bend_down(piece, {}, {}, {});
    EXPECT_EQ(report.reason, StopReason::done);
    const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
    return findings::find_in_part(piece.mesh, findings::shape_of(piece.state, fields), fields, job);
}

TEST(WorkedDrive, OfALongStraightLineEndsAtTheAngleOfTheEvenOne) {
    constexpr double play = degree; // a channel of 1.4 thicknesses leaves the flange more
    const findings::PartFindings even = held(job::DriveOrder::evenly);
    const findings::PartFindings worked = held(job::DriveOrder::from_start);
    RecordProperty("even_deg", std::to_string(even.flange_angle_middle.mean / degree));
    RecordProperty("worked_deg", std::to_string(worked.flange_angle_middle.mean / degree));
    RecordProperty("worked_edge_strain", std::to_string(worked.edge_strain_most));
    EXPECT_NEAR(worked.flange_angle_middle.mean, even.flange_angle_middle.mean, play);
}

} // namespace
} // namespace flangewright::process
