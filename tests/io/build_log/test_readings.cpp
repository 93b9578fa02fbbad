#include "io/build_log/readings.hpp"
#include "io/units/angle.hpp"

#include <gmock/gmock.h>

namespace flangewright::build_log {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

const MeasuredPart part{{"bend-down", "release"}, 70, 0.8};
const std::string names =
    "step,station_mm,angle_deg,thickness_mm,before_mm,after_mm,web_lift_mm,cracked\n";

std::string problem_of(const std::string& text) {
    const auto readings = readings_from(text, "m.csv", part);
    return readings ? "" : key_file::line_for(readings.error());
}

TEST(Readings, TakeStepsByNumberNameOrBoth) {
    const auto read = readings_from(
        names + "1 bend-down,,90,,,,,\n2,10,88.5,,,,,\nRelease,20,88,,,,,\n", "m.csv", part
    );
    ASSERT_TRUE(read) << key_file::line_for(read.error());
    ASSERT_EQ(read->rows.size(), 3U);
    EXPECT_EQ(read->rows[0].step, 0U);
    EXPECT_FALSE(read->rows[0].station);
    EXPECT_EQ(read->rows[1].step, 1U);
    EXPECT_EQ(read->rows[2].step, 1U);
    EXPECT_DOUBLE_EQ(*read->rows[1].angle, units::radians(88.5));
    EXPECT_EQ(read->rows[2].line, 4);
}

TEST(Readings, TellWhatWasNotMeasuredAndPassOverEmptyRows) {
    const auto read = readings_from(
        "step;station_in;thickness_in;before_in;after_in;cracked\n"
        "release;1;;;;\nrelease;1.5;0.03;0.5;0.55;yes\n",
        "m.csv",
        part
    );
    ASSERT_TRUE(read) << key_file::line_for(read.error());
    ASSERT_EQ(read->rows.size(), 1U);
    EXPECT_DOUBLE_EQ(*read->rows[0].station, 38.1);
    EXPECT_NEAR(read->rows[0].stretch(), 0.1, 1e-12);
    EXPECT_TRUE(read->rows[0].is_cracked);
    EXPECT_THAT(read->not_measured, ElementsAre("angle", "web lift"));
}

TEST(Readings, RefuseNamesThatAreNotKnownOrLackTheirUnit) {
    EXPECT_THAT(
        problem_of("step,angle\nrelease,88\n"),
        HasSubstr("m.csv:1: angle: found no unit, or one that is not known, allowed angle_deg")
    );
    EXPECT_THAT(
        problem_of("step,angle,station_mm\nrelease,,7\n"),
        HasSubstr("m.csv:1: angle: found no unit")
    );
    EXPECT_THAT(
        problem_of("step,thickness_cm\nrelease,0.08\n"),
        HasSubstr("allowed thickness_mm or thickness_in")
    );
    EXPECT_THAT(problem_of("step,angel_deg\nrelease,88\n"), HasSubstr("write angle_deg"));
    EXPECT_THAT(problem_of("angle_deg\n88\n"), HasSubstr("step: found no such column"));
    EXPECT_THAT(
        problem_of("step,station_mm,after_mm\nrelease,4,11\n"),
        HasSubstr("before: found no such column")
    );
    EXPECT_THAT(
        problem_of("step,angle_deg,angle_deg\nrelease,88,88\n"), HasSubstr("this quantity twice")
    );
}

TEST(Readings, RefuseStepsTheCaseDoesNotHave) {
    EXPECT_THAT(
        problem_of(names + "trim,,88,,,,,\n"),
        HasSubstr("m.csv:2: step: found \"trim\", allowed 1 bend-down or 2 release")
    );
}

TEST(Readings, RefuseARowWithoutItsStep) {
    EXPECT_THAT(problem_of(names + ",,88,,,,,\n"), HasSubstr("m.csv:2: step: found \"\""));
}

// A thickness in thou under a name in mm, an angle from the flat, a rule read in inches.
TEST(Readings, RefuseFiguresThatCanNotBe) {
    EXPECT_THAT(problem_of(names + "2,,,31,,,,\n"), HasSubstr("0.3 to 1.5 of the sheet's 0.8 mm"));
    EXPECT_THAT(problem_of(names + "2,,,0.23,,,,\n"), HasSubstr("0.3 to 1.5 of the sheet's"));
    EXPECT_THAT(problem_of(names + "2,,,1.21,,,,\n"), HasSubstr("0.3 to 1.5 of the sheet's"));
    EXPECT_THAT(problem_of(names + "2,,270,,,,,\n"), HasSubstr("found 270 deg"));
    EXPECT_THAT(problem_of(names + "2,71,88,,,,,\n"), HasSubstr("0 to 70 mm"));
    EXPECT_THAT(problem_of(names + "2,,,,,,-1,\n"), HasSubstr("web_lift"));
    EXPECT_THAT(problem_of(names + "2,30,,,10,0.43,,\n"), HasSubstr("0.43 mm from 10 mm"));
    EXPECT_THAT(problem_of(names + "2,30,,,,11,,\n"), HasSubstr("before: found nothing"));
    EXPECT_THAT(problem_of(names + "2,,,,10,11,,\n"), HasSubstr("station: found nothing"));
    EXPECT_THAT(problem_of(names + "2,30,,,,,,perhaps\n"), HasSubstr("yes, no or nothing"));
    EXPECT_THAT(problem_of(names + "2,30,x,,,,,\n"), HasSubstr("a number with a point"));
    EXPECT_THAT(problem_of(names + "2,30,,,,,,\n"), HasSubstr("at least one figure"));
}

} // namespace
} // namespace flangewright::build_log
