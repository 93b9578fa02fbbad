// The return lip in a case file: what is read, and every way to get it wrong that we thought of.
#include "io/case_file/case_file.hpp"
#include "io/units/angle.hpp"
#include "solver/findings/lip_development.hpp"
#include "tests/io/case_file/bad_lines.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/case_file/reading.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::case_file {
namespace {

using job::StepKind;

const std::string steps_with_lip =
    R"(steps = ["bend-down", "release", "trim", "return-bend", "release"])";

/// The good case (flange 18 mm deep, nose 2.4 mm, radius 200 mm) with a lip; `section` stands from
/// line 31 on.
std::string lip_case(const std::string& section, const std::string& steps = steps_with_lip) {
    return with_line(28, steps) + "[return_bend]\n" + section;
}

const std::string lip = "side = \"under the web\"\nlip_depth = 9\nnose_radius = 2\n";

TEST(ReturnBendSection, IsRead) {
    const job::Job job =
        read_well(lip_case(lip + "angle = 80\nclearance = 1.2\ncorner_radius = 5"));
    ASSERT_TRUE(job.return_bend);
    EXPECT_EQ(job.return_bend->side, job::LipSide::under_web);
    EXPECT_EQ(job.return_bend->lip_depth, 9);
    EXPECT_EQ(job.return_bend->nose_radius, 2);
    EXPECT_NEAR(job.return_bend->angle, units::radians(80), 1e-12);
    EXPECT_EQ(job.return_bend->clearance, 1.2);
    EXPECT_EQ(job.return_bend->corner_radius, 5);
}

TEST(ReturnBendSection, TakesASquareLipAndAUsualWiperWhenNothingIsSaid) {
    const job::Job job =
        read_well(lip_case("side = \"away from the web\"\nlip_depth = \"3/8 in\"\nnose_radius = 2")
        );
    EXPECT_EQ(job.return_bend->side, job::LipSide::away_from_web);
    EXPECT_NEAR(job.return_bend->lip_depth, 9.525, 1e-9);
    EXPECT_NEAR(job.return_bend->angle, units::radians(90), 1e-12);
    EXPECT_EQ(job.return_bend->clearance, 1.05);
    EXPECT_EQ(job.return_bend->corner_radius, 3);
}

TEST(ReturnBendSection, DevelopsFlangeAndLipTogether) {
    const job::Job job = read_well(lip_case(lip));
    const findings::LipDevelopment flat = findings::develop_lip(job);
    EXPECT_DOUBLE_EQ(job.blank.lip_width, flat.width);
    EXPECT_DOUBLE_EQ(job.blank.flange_width, flat.bend_begin + flat.width + 3);
    EXPECT_DOUBLE_EQ(job.blank.lip_begin(), flat.bend_begin);
    EXPECT_FALSE(job.blank.has_lip);
}

// The blank as cut, where templates found it: the depth says where the lip's block stands.
TEST(ReturnBendSection, TakesAFlatWidthBesideTheDepth) {
    const job::Job plain = read_well(lip_case(lip));
    const job::Job job = read_well(
        with_line(13, "flange_depth = 18\nflat_width = [[0, 33], [60, 31]]", lip_case(lip))
    );
    EXPECT_EQ(job.blank.flange_width, 33);
    EXPECT_EQ(job.blank.flange_width_at(60), 31);
    EXPECT_NEAR(job.blank.lip_begin(), plain.blank.lip_begin(), 1e-9);
    EXPECT_EQ(job.blank.flange_depth, 18);
}

// A loose part goes back on its block before the lip is bent; one still on it stays.
TEST(ReturnBendSection, SetsALoosePartOnItsBlockFirst) {
    EXPECT_EQ(
        read_well(lip_case(lip)).steps,
        (std::vector{
            StepKind::bend_down,
            StepKind::release,
            StepKind::trim,
            StepKind::set_on_block,
            StepKind::return_bend,
            StepKind::release})
    );
    EXPECT_EQ(
        read_well(lip_case(lip, R"(steps = ["bend-down", "return-bend", "release"])")).steps,
        (std::vector{StepKind::bend_down, StepKind::return_bend, StepKind::release})
    );
}

class BadReturnBendCase : public ::testing::TestWithParam<BadLines> {};

TEST_P(BadReturnBendCase, GivesOneErrorThatNamesLineAndKey) {
    expect_the_one_error(read_case_text(GetParam().lines, "case.toml"), GetParam());
}

INSTANTIATE_TEST_SUITE_P(
    ReturnBend,
    BadReturnBendCase,
    ::testing::Values(
        BadLines{
            "SideMissing",
            lip_case("lip_depth = 9\nnose_radius = 2"),
            31,
            "return_bend.side",
            {"found nothing", "side = ..."}},
        BadLines{
            "SideUnknown",
            lip_case("side = \"inward\"\nlip_depth = 9\nnose_radius = 2"),
            32,
            "return_bend.side",
            {"away from the web"}},
        BadLines{
            "DepthMissing",
            lip_case("side = \"under the web\"\nnose_radius = 2"),
            31,
            "return_bend.lip_depth",
            {"found nothing"}},
        BadLines{
            "LipWithinItsBend",
            lip_case("side = \"under the web\"\nlip_depth = 4\nnose_radius = 2"),
            33,
            "return_bend.lip_depth",
            {"at least 4.4 mm"}},
        BadLines{
            "SharpNose",
            lip_case("side = \"under the web\"\nlip_depth = 9\nnose_radius = 0.1"),
            34,
            "return_bend.nose_radius",
            {"at least 0.2 mm"}},
        BadLines{
            "PastSquare",
            lip_case(lip + "angle = 95"),
            35,
            "return_bend.angle",
            {"5 deg to 90 deg"}},
        BadLines{
            "NothingBetweenTheBends",
            lip_case("side = \"under the web\"\nlip_depth = 30\nnose_radius = 13"),
            13,
            "blank.flange_depth",
            {"at least 19.4 mm"}},
        BadLines{
            "LipReachesTheCentre",
            lip_case("side = \"under the web\"\nlip_depth = 190\nnose_radius = 2"),
            33,
            "return_bend.lip_depth",
            {"the centre of a bend line of radius 200 mm"}},
        BadLines{
            "FlatWidthGiven",
            with_line(13, "flat_width = 40", lip_case(lip)),
            13,
            "blank.flat_width",
            {"flange_depth"}},
        BadLines{
            "FlatWidthLeavesNoLip",
            with_line(13, "flange_depth = 18\nflat_width = [[0, 30], [60, 22]]", lip_case(lip)),
            14,
            "blank.flat_width",
            {"both bends, two thicknesses of lip"}},
        BadLines{
            "NoStepBendsIt",
            lip_case(lip, R"(steps = ["bend-down", "release"])"),
            33,
            "return_bend.lip_depth",
            {"no step bends"}},
        BadLines{
            "StepWithoutSection",
            with_line(28, steps_with_lip),
            28,
            "run.steps",
            {"[return_bend]"}},
        BadLines{
            "BentTwice",
            lip_case(
                lip, R"(steps = ["bend-down", "release", "return-bend", "release", "return-bend"])"
            ),
            28,
            "run.steps",
            {"a step twice"}},
        BadLines{
            "LeftOnTheBlock",
            lip_case(lip, R"(steps = ["bend-down", "release", "return-bend", "trim"])"),
            28,
            "run.steps",
            {"still on the block"}},
        BadLines{
            "UnknownKey", lip_case(lip + "depth = 3"), 35, "return_bend.depth", {"an unknown key"}}
    ),
    [](const auto& of) { return of.param.name; }
);

} // namespace
} // namespace flangewright::case_file
