#include "solver/findings/grain_angle.hpp"

#include <gtest/gtest.h>

namespace flangewright::findings {
namespace {

using job::EndKind;

job::Job arc_job(outline::Curve curve, EndKind start, EndKind end) {
    job::Job job;
    job.blank.line = outline::BendLine::arc(50, 0.8, curve);
    job.blank.start = start;
    job.blank.end = end;
    job.sheet.rolling_direction = 0.3;
    return job;
}

TEST(GrainAngle, IsTheStatedOneInTheMiddleOfThePart) {
    const job::Job both = arc_job(outline::Curve::concave, EndKind::free, EndKind::free);
    EXPECT_NEAR(grain_angle(both, 20), 0.3, 1e-12);
    const job::Job one = arc_job(outline::Curve::concave, EndKind::continues, EndKind::free);
    EXPECT_NEAR(grain_angle(one, 0), 0.3, 1e-12);
}

// The grain stays, the line turns by station over radius.
TEST(GrainAngle, TurnsAgainstTheLine) {
    const job::Job concave = arc_job(outline::Curve::concave, EndKind::free, EndKind::free);
    const job::Job convex = arc_job(outline::Curve::convex, EndKind::free, EndKind::free);
    const double turned = grain_angle(concave, 30) - 0.3;
    EXPECT_NEAR(std::abs(turned), 0.2, 1e-12);
    EXPECT_NEAR(grain_angle(concave, 10) - 0.3, -turned, 1e-12);
    EXPECT_NEAR(grain_angle(convex, 30) - 0.3, -turned, 1e-12);
    // What lies along the tangent there has an angle of zero.
    const outline::LineFrame middle = concave.blank.line.frame(20);
    const outline::LineFrame there = concave.blank.line.frame(30);
    const Eigen::Vector3d grain = std::cos(0.3) * middle.tangent + std::sin(0.3) * middle.outward;
    EXPECT_NEAR(std::cos(0.3 + turned), grain.dot(there.tangent), 1e-12);
    EXPECT_NEAR(std::sin(0.3 + turned), grain.dot(there.outward), 1e-12);
}

} // namespace
} // namespace flangewright::findings
