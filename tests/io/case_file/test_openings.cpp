// Holes, notches and tabs: what is read, and every way to get it wrong that we thought of.
#include "io/case_file/case_file.hpp"
#include "tests/io/case_file/bad_lines.hpp"
#include "tests/io/case_file/case_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::case_file {
namespace {

/// The good case without trim, a line of its own for openings. The line is 69.8 mm long, the web 40
/// wide, the flange some 18.
std::string with_openings(const std::string& lines) {
    return with_line(14, lines);
}

TEST(Openings, AreReadInTheirUnits) {
    const auto result = read_case_text(
        with_openings(
            "holes = [{station = 20, web = 20, diameter = \"1/4 in\"}, {station = 50, web "
            "= 30, diameter = 5, pin = true}, {station = 40, flange = 10, diameter = 3}]\n"
            "notches = [{station = 25, width = 4, depth = 6}]\n"
            "tabs = [{from = 55, to = 65, height = 5}]"
        ),
        "case.toml"
    );
    ASSERT_TRUE(result) << line_for(result.error().front());
    const outline::Openings& openings = result->job.blank.openings;
    ASSERT_EQ(openings.holes.size(), 3U);
    EXPECT_DOUBLE_EQ(openings.holes[0].diameter, 6.35);
    EXPECT_DOUBLE_EQ(openings.holes[0].distance, -20);
    EXPECT_FALSE(openings.holes[0].is_pin);
    EXPECT_TRUE(openings.holes[1].is_pin);
    EXPECT_DOUBLE_EQ(openings.holes[2].distance, 10);
    ASSERT_EQ(openings.notches.size(), 1U);
    EXPECT_DOUBLE_EQ(openings.notches[0].depth, 6);
    ASSERT_EQ(openings.tabs.size(), 1U);
    EXPECT_DOUBLE_EQ(openings.tabs[0].end, 65);
}

TEST(Openings, MayStandAsTablesOfTheirOwn) {
    const auto result = read_case_text(
        with_line(16, "end = \"free\"\n[[blank.holes]]\nstation = 20\nweb = 20\ndiameter = 6"), "c"
    );
    ASSERT_TRUE(result) << line_for(result.error().front());
    EXPECT_EQ(result->job.blank.openings.holes.size(), 1U);
}

TEST(Openings, HolesInTheWebGoWithATrim) {
    const auto result = read_case_text(
        with_line(16, "end = \"free\"\nholes = [{station = 20, web = 20, diameter = 6}]"), "c"
    );
    EXPECT_TRUE(result.has_value());
}

TEST(Openings, GoWithAFlangeThatVariesAndItsOwnWidth) {
    const auto result = read_case_text(
        with_line(
            13,
            "flange_depth = [[0, 18], [60, 14]]",
            with_openings("holes = [{station = 20, flange = 10, diameter = 4}]")
        ),
        "case.toml"
    );
    EXPECT_TRUE(result.has_value());
    const auto past_the_narrow_edge = read_case_text(
        with_line(
            13,
            "flange_depth = [[0, 18], [60, 14]]",
            with_openings("holes = [{station = 55, flange = 13, diameter = 4}]")
        ),
        "case.toml"
    );
    ASSERT_FALSE(past_the_narrow_edge.has_value());
    EXPECT_THAT(
        line_for(past_the_narrow_edge.error().front()), testing::HasSubstr("and the net edge")
    );
}

class BadOpenings : public ::testing::TestWithParam<BadLines> {};

TEST_P(BadOpenings, GiveOneErrorThatNamesLineAndKey) {
    expect_the_one_error(read_case_text(with_openings(GetParam().lines), "case.toml"), GetParam());
}

INSTANTIATE_TEST_SUITE_P(
    All,
    BadOpenings,
    ::testing::Values(
        BadLines{"NoList", "holes = 3", 14, "blank.holes", {"list of tables"}},
        BadLines{
            "NeitherWebNorFlange",
            "holes = [{station = 20, diameter = 6}]",
            14,
            "blank.holes[1]",
            {"neither web nor flange"}},
        BadLines{
            "Both",
            "holes = [{station = 20, web = 9, flange = 9, diameter = 6}]",
            14,
            "blank.holes[1]",
            {"both web and flange"}},
        BadLines{
            "PinIsAWord",
            "holes = [{station = 20, web = 20, diameter = 6, pin = \"yes\"}]",
            14,
            "blank.holes[1].pin",
            {"true or false"}},
        BadLines{
            "UnknownKey",
            "holes = [{station = 20, web = 20, diameter = 6, diametre = 6}]",
            14,
            "blank.holes[1].diametre",
            {"unknown key", "write diameter"}},
        BadLines{
            "IntoTheBend",
            "holes = [{station = 20, web = 4, diameter = 6}]",
            14,
            "blank.holes[1].web",
            {"4.6 mm", "two thicknesses"}},
        BadLines{
            "OverTheWebsEdge",
            "holes = [{station = 20, web = 37, diameter = 6}]",
            14,
            "blank.holes[1].web",
            {"35.4"}},
        BadLines{
            "LargerThanTheWeb",
            "holes = [{station = 35, web = 20, diameter = 60}]",
            14,
            "blank.holes[1].web",
            {"a smaller opening"}},
        BadLines{
            "OverTheEnd",
            "holes = [{station = 2, web = 20, diameter = 6}]",
            14,
            "blank.holes[1].station",
            {"between the line's ends"}},
        BadLines{
            "InTheFlangeIntoTheBend",
            "holes = [{station = 20, flange = 5, diameter = 4}]",
            14,
            "blank.holes[1].flange",
            {"between the bend's end and the net edge"}},
        BadLines{
            "PinInTheFlange",
            "holes = [{station = 20, flange = 10, diameter = 4, pin = true}]",
            14,
            "blank.holes[1].pin",
            {"pins in the web"}},
        BadLines{
            "TwoHolesRunTogether",
            "holes = [{station = 20, web = 20, diameter = 6},\n{station = 24, web = 20, diameter = "
            "6}]",
            15,
            "blank.holes[2].station",
            {"runs into blank.holes[1]"}},
        BadLines{
            "TwoHolesTooNear",
            "holes = [{station = 20, web = 20, diameter = 6},\n{station = 20, web = 27, diameter = "
            "6}]",
            15,
            "blank.holes[2].station",
            {"only 1 mm of metal"}},
        BadLines{
            "NotchDeeperThanTheFlange",
            "notches = [{station = 30, width = 4, depth = 16}]",
            14,
            "blank.notches[1].depth",
            {"short of the bend"}},
        BadLines{
            "NotchFlatterThanItsRound",
            "notches = [{station = 30, width = 9, depth = 3}]",
            14,
            "blank.notches[1].depth",
            {"half round"}},
        BadLines{
            "NotchOnATab",
            "tabs = [{from = 20, to = 40, height = 4}]\nnotches = [{station = 41, width = 4, depth "
            "= 5}]",
            15,
            "blank.notches[1].station",
            {"close to a tab"}},
        BadLines{
            "TabBackwards",
            "tabs = [{from = 40, to = 20, height = 4}]",
            14,
            "blank.tabs[1].to",
            {"in this order"}},
        BadLines{
            "TabPastTheEnd",
            "tabs = [{from = 40, to = 90, height = 4}]",
            14,
            "blank.tabs[1].to",
            {"the bend line's ends"}},
        BadLines{
            "TabsOverlap",
            "tabs = [{from = 10, to = 30, height = 4},\n{from = 30.5, to = 40, height = 4}]",
            15,
            "blank.tabs[2].from",
            {"close to another"}},
        BadLines{
            "NotchesBesideATrimAllowance",
            "trim_allowance = 2\nnotches = [{station = 30, width = 4, depth = 5}]",
            15,
            "blank.notches",
            {"trim allowance"}}
    ),
    [](const ::testing::TestParamInfo<BadLines>& each) { return each.param.name; }
);

} // namespace
} // namespace flangewright::case_file
