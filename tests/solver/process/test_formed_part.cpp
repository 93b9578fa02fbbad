// What is read off a formed part. Blanks are formed by the solver in tests/cases.
#include "solver/process/formed_part.hpp"
#include "tests/support/formed_flange.hpp"
#include "tests/support/made_up_lip.hpp"

#include <gtest/gtest.h>

namespace flangewright::process {
namespace {

TEST(FormedPart, HasTheFlangesDepthAtEachStation) {
    const JobResult run = support::made_up_result();
    const FormedPart part = read_formed(support::made_up_job(), run);
    const auto& stations = run.steps.back().findings.stations;
    ASSERT_EQ(part.depths.size(), stations.size());
    EXPECT_EQ(part.depths[3].value, stations[3].flange_depth);
    EXPECT_TRUE(part.flange_depths.empty());
}

TEST(FormedPart, HasTheLipsDepthWhereThereIsOne) {
    JobResult run = support::made_up_lip_result();
    for (findings::StationFindings& at : run.steps.back().findings.stations) {
        at.lip_depth = 8.25;
        at.lip_angle = 1.5;
    }
    const FormedPart part = read_formed(support::made_up_lip_job(), run);
    EXPECT_EQ(part.depths.front().value, 8.25);
    EXPECT_EQ(part.lip_angles.front().value, 1.5);
    EXPECT_EQ(
        part.flange_depths.front().value, run.steps.back().findings.stations.front().flange_depth
    );
}

TEST(FormedPart, HasNothingOfARunThatDidNotEnd) {
    JobResult run = support::made_up_result();
    run.reason = StopReason::stop_requested;
    const FormedPart part = read_formed(support::made_up_job(), run);
    EXPECT_EQ(part.reason, StopReason::stop_requested);
    EXPECT_TRUE(part.depths.empty());
}

TEST(FormedPart, LeavesOutTheEdgeOfNotchesAndTabs) {
    job::Blank blank;
    blank.line = outline::BendLine::arc(100, 1, outline::Curve::concave);
    blank.flange_width = 20;
    blank.openings.notches = {{30, 4, 6}};
    blank.openings.tabs = {{60, 70, 5}};
    EXPECT_FALSE(is_at_opening(blank, 27.4));
    EXPECT_TRUE(is_at_opening(blank, 27.6)); // 2 mm at the edge are 2.5 mm at the bend line
    EXPECT_TRUE(is_at_opening(blank, 60));
    EXPECT_TRUE(is_at_opening(blank, 65));
    EXPECT_FALSE(is_at_opening(blank, 70.1));
}

} // namespace
} // namespace flangewright::process
