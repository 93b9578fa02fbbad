// Passes of a drive: the wiper's stroke that belongs to an angle, and where on the path passes end.
#include "solver/process/drive_passes.hpp"
#include "solver/tooling/surface/wiper.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;

constexpr double degree = std::numbers::pi / 180;

job::Job wiped(double width) {
    job::Job job = support::small_flange(BendLine::straight(40), EndKind::free, EndKind::free);
    job.blank.flange_width = width;
    return job;
}

// Smallest gap between the wiper at a height and the outer face of a flange laid round the nose at
// an angle, looked for point by point: what wiper_underside() solves in one formula.
double gap_at(const job::Job& job, double underside, double angle) {
    const double t = job.sheet.thickness;
    const double outer = job.block.nose_radius + t;
    tooling::Wiper wiper(job.block.nose_radius + job.drive.clearance * t, job.drive.corner_radius);
    wiper.set_underside(underside);
    const double straight = job.blank.flange_width - angle * (job.block.nose_radius + 0.5 * t);
    double gap = 1e9;
    constexpr int n = 200000;
    for (int i = 0; i <= n; ++i) {
        const double along = straight * i / n;
        const tooling::SectionPoint point(
            outer * std::sin(angle) + along * std::cos(angle),
            outer * std::cos(angle) - job.block.nose_radius - along * std::sin(angle)
        );
        gap = std::min(gap, wiper.at(point).distance);
    }
    return gap;
}

TEST(DrivePasses, WiperTouchesAFlangeLaidRoundTheNoseAtTheAngle) {
    for (const double width : {9.0, 20.0}) { // edge on the corner early, and late
        const job::Job job = wiped(width);
        for (const double angle : {10.0, 30.0, 60.0, 75.0, 80.0}) {
            const double underside = wiper_underside(job, angle * degree);
            EXPECT_NEAR(gap_at(job, underside, angle * degree), 0, 1e-3) << width << ' ' << angle;
        }
    }
}

TEST(DrivePasses, WiperGoesLowerForEachLargerAngleAndAllTheWayForSquare) {
    const job::Job job = wiped(12);
    EXPECT_NEAR(wiper_underside(job, 0), job.sheet.thickness, 1e-12); // rests on the sheet
    double last = wiper_underside(job, 0);
    for (double angle = 2; angle <= 90; angle += 2) {
        const double now = wiper_underside(job, angle * degree);
        EXPECT_LE(now, last);
        last = now;
    }
    EXPECT_NEAR(last, -(12 + job.drive.corner_radius), 1.01); // past the edge
    // The channel of 1.4 thicknesses leaves the flange a little open: nothing gets it to 89.9.
    EXPECT_DOUBLE_EQ(wiper_underside(job, 89.9 * degree), last);
}

TEST(DrivePasses, EndAfterEvenSharesWorkedAlongAndByTheirStrokeWhenEven) {
    job::Job job = wiped(12);
    EXPECT_FALSE(has_passes(job.drive));
    job.drive.passes = {30 * degree, 60 * degree, 90 * degree};
    EXPECT_TRUE(has_passes(job.drive));
    const std::vector<double> strokes = pass_strokes(job);
    ASSERT_EQ(strokes.size(), 4U);
    const std::vector<double> even = pass_ends(job);
    ASSERT_EQ(even.size(), 3U);
    const double whole = strokes.back() - strokes.front();
    EXPECT_NEAR(even[1], (strokes[2] - strokes[0]) / whole, 1e-12);
    EXPECT_DOUBLE_EQ(even.back(), 1);
    job.drive.order = job::DriveOrder::ends_first;
    EXPECT_NEAR(pass_ends(job)[0], 1.0 / 3, 1e-12);
    EXPECT_DOUBLE_EQ(pass_ends(job).back(), 1);
    job.drive.kind = job::DriveKind::leaf;
    EXPECT_DOUBLE_EQ(pass_strokes(job)[1], 30 * degree);
    job.drive.order = job::DriveOrder::evenly;
    EXPECT_NEAR(pass_ends(job)[0], 1.0 / 3, 1e-12);
}

// An even wiper that stops short of square is stopped on its way, where its full stroke is not.
TEST(DrivePasses, OfAnEvenWiperShortOfSquareEndBeforeThePathDoes) {
    job::Job job = wiped(12);
    job.drive.angle = 60 * degree;
    job.drive.passes = {30 * degree, 60 * degree};
    EXPECT_LT(pass_ends(job).back(), 0.9);
}

TEST(DrivePasses, StretchRunsPastBothEnds) {
    job::Job job = wiped(12);
    job.drive.order = job::DriveOrder::ends_first;
    job.drive.front = 15;
    const tooling::WorkedStretch stretch = stretch_of(job);
    EXPECT_LT(stretch.begin, 0);
    EXPECT_GT(stretch.end, 40);
    EXPECT_EQ(stretch.front, 15);
    EXPECT_EQ(stretch.from, tooling::FrontFrom::both_ends);
    job.drive.order = job::DriveOrder::from_end;
    EXPECT_EQ(stretch_of(job).from, tooling::FrontFrom::end);
}

} // namespace
} // namespace flangewright::process
