// The mesh a job gets by its accuracy.
#include "solver/process/workpiece.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace flangewright::process {
namespace {

using job::Accuracy;

/// Widest element in the flange over the widest in the bend.
double flange_over_bend(Accuracy accuracy) {
    const job::Job job = support::small_flange(
        outline::BendLine::straight(3), job::EndKind::continues, job::EndKind::continues
    );
    const auto piece = make_workpiece(job, fineness_for(accuracy), 1);
    const std::vector<int>& line = piece->mesh.station_lines.front();
    const double bend_end =
        job.block.wall_angle * (job.block.nose_radius + 0.5 * job.sheet.thickness);
    double in_bend = 0;
    double in_flange = 0;
    for (std::size_t i = 1; i < line.size(); ++i) {
        const double from = piece->mesh.distance[line[i - 1]];
        const double to = piece->mesh.distance[line[i]];
        if (from > -1e-9) {
            double& widest = to < bend_end + 1e-9 ? in_bend : in_flange;
            widest = std::max(widest, to - from);
        }
    }
    return in_flange / in_bend;
}

// The web lift hangs on it: docs/theory-findings.md, "Web lift".
TEST(Workpiece, HasFlangeElementsNoWiderThanInTheBendUnlessQuick) {
    constexpr double rounding = 1e-9;
    EXPECT_LE(flange_over_bend(Accuracy::normal), 1 + rounding);
    EXPECT_LE(flange_over_bend(Accuracy::fine), 1 + rounding);
    EXPECT_GT(flange_over_bend(Accuracy::quick), 1.2);
}

} // namespace
} // namespace flangewright::process
