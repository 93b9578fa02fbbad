// Bend lines given by points of the drawing.
#include "io/case_file/case_file.hpp"
#include "io/units/angle.hpp"
#include "tests/io/case_file/bad_lines.hpp"
#include "tests/io/case_file/case_text.hpp"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::case_file {
namespace {

std::string points_case(const std::string& lines, const std::string& base = good_case) {
    return with_line(8, "curve = \"points\"", with_line(9, lines, with_line(10, "", base)));
}

/// Points on a circle about (7, -3), in the unit of the file; the flange lies inside when it is
/// travelled counter-clockwise with the flange to the left.
std::string on_circle(double radius, double from, double to) {
    std::string list;
    for (int i = 0; i <= 10; ++i) {
        const double angle = units::radians(from + (to - from) * i / 10);
        list += fmt::format(
            "{}[{:.5f}, {:.5f}]",
            i > 0 ? ", " : "",
            7 + radius * std::cos(angle),
            -3 + radius * std::sin(angle)
        );
    }
    return "points = [" + list + "]";
}

outline::BendLine line_of(const std::string& text) {
    const auto result = read_case_text(text, "case.toml");
    EXPECT_TRUE(result) << line_for(result.error().front());
    return result ? result->job.blank.line : outline::BendLine::straight(1);
}

// A circle's points, written to a hundredth of a micron, have its radius within 0.1 per cent.
TEST(Points, OfACircleHaveItsRadiusAndLength) {
    const outline::BendLine line = line_of(points_case(on_circle(200, 30, 60)));
    EXPECT_NEAR(line.concave_radius(), 200, 0.2);
    EXPECT_NEAR(line.tightest_curvature() * 200, 1, 1e-3);
    EXPECT_TRUE(std::isinf(line.convex_radius()));
    EXPECT_NEAR(line.length(), 200 * units::radians(30), 0.01);
}

TEST(Points, TravelledTheOtherWayHaveTheFlangeOnTheOtherSide) {
    EXPECT_NEAR(line_of(points_case(on_circle(200, 60, 30))).convex_radius(), 200, 0.2);
    const std::string right = "flange_side = \"right\"\n";
    EXPECT_NEAR(line_of(points_case(right + on_circle(200, 60, 30))).concave_radius(), 200, 0.2);
    EXPECT_NEAR(line_of(points_case(right + on_circle(200, 30, 60))).convex_radius(), 200, 0.2);
    const std::string left = "flange_side = \"left\"\n";
    EXPECT_NEAR(line_of(points_case(left + on_circle(200, 30, 60))).concave_radius(), 200, 0.2);
}

TEST(Points, AreInTheUnitOfTheFile) {
    const std::string text = R"(title = "In inches"
unit = "in"
[sheet]
material = "2024-O"
thickness = 0.032
[bend_line]
curve = "points"
points = [[0, 0], ["50 mm", 0], [4, 0]]
[blank]
web_width = 1
flange_depth = 0.5
[block]
nose_radius = 0.1
[drive]
kind = "wiper"
)";
    const outline::BendLine line = line_of(text);
    EXPECT_NEAR(line.length(), 4 * 25.4, 1e-9);
    EXPECT_EQ(line.curve(), outline::Curve::straight);
}

CaseFile case_of(const std::string& text) {
    const auto result = read_case_text(text, "case.toml");
    EXPECT_TRUE(result) << line_for(result.error().front());
    return result.value_or(CaseFile{});
}

// Two straights of 40 and hypot(40, 20) at a kink of 26.6 deg, each given by three points.
const std::string kinked = "points = [[0, 0], [20, 0], [40, 0], [60, 10], [80, 20]]";

TEST(Points, KinkIsRoundedOnRequest) {
    const double turn = std::atan2(10, 20);
    const double whole = 40 + std::hypot(40, 20);
    for (const bool is_right : {false, true}) {
        const std::string side = is_right ? "flange_side = \"right\"\n" : "";
        const CaseFile file = case_of(points_case("round_kinks = 60\n" + side + kinked + "\n"));
        const outline::BendLine& line = file.job.blank.line;
        const double taken = 60 * std::tan(0.5 * turn);
        EXPECT_NEAR(line.length(), whole - 2 * taken + 60 * turn, 1e-9);
        EXPECT_NEAR(is_right ? line.convex_radius() : line.concave_radius(), 60, 1e-9);
        EXPECT_NEAR(line.sweep(), turn, 1e-9);
        ASSERT_EQ(file.rounded_kinks.size(), 1U);
        EXPECT_EQ(file.rounded_kinks[0].place, "point 3, (40, 0) mm");
        EXPECT_NEAR(file.rounded_kinks[0].turn, is_right ? -turn : turn, 1e-9);
        EXPECT_EQ(file.rounded_kinks[0].radius, 60);
    }
}

TEST(Points, EveryKinkIsRoundedAndTheRestStaysACurve) {
    // A sixth of a circle of radius 200 between two straights that meet it at 60 deg.
    std::string list = "points = [[-142.5, -7], [-102.5, -7], ";
    for (int i = 0; i <= 6; ++i) {
        const double angle = units::radians(150 - 10 * i);
        list += fmt::format(
            "[{:.5f}, {:.5f}], ", 200 * std::cos(angle) + 110.705, 200 * std::sin(angle) - 107
        );
    }
    const CaseFile file = case_of(points_case(
        "round_kinks = \"40 mm\"\n" + list + "[130.705, 127.641], [150.705, 162.282]]\n"
    ));
    ASSERT_EQ(file.rounded_kinks.size(), 2U);
    EXPECT_EQ(file.rounded_kinks[0].place, "point 3, (-62.5, -7) mm");
    EXPECT_EQ(file.rounded_kinks[1].place, "point 9, (110.7, 93) mm");
    EXPECT_NEAR(units::degrees(file.rounded_kinks[0].turn), 60, 0.01);
    EXPECT_NEAR(units::degrees(file.rounded_kinks[1].turn), 60, 0.01);
    EXPECT_NEAR(file.job.blank.line.concave_radius(), 40, 1e-6);
    bool has_circle = false;
    for (const outline::Piece& piece : file.job.blank.line.pieces()) {
        has_circle = has_circle || std::abs(piece.curvature * 200 + 1) < 1e-3;
    }
    EXPECT_TRUE(has_circle);
}

TEST(Points, WithoutKinkAreLeftAloneByRounding) {
    const CaseFile file = case_of(points_case("round_kinks = 5\n" + on_circle(200, 30, 60)));
    EXPECT_TRUE(file.rounded_kinks.empty());
    EXPECT_EQ(file.job.blank.line.length(), line_of(points_case(on_circle(200, 30, 60))).length());
}

class BadPointsCase : public ::testing::TestWithParam<BadLines> {};

TEST_P(BadPointsCase, GivesOneErrorThatNamesThePlace) {
    expect_the_one_error(read_case_text(points_case(GetParam().lines), "case.toml"), GetParam());
}

INSTANTIATE_TEST_SUITE_P(
    All,
    BadPointsCase,
    ::testing::Values(
        BadLines{"Missing", "", 7, "bend_line.points", {"found nothing"}},
        BadLines{"NoList", "points = 3", 9, "bend_line.points", {"a list of pairs"}},
        BadLines{"None", "points = []", 9, "bend_line.points", {"0 points", "2 to 300"}},
        BadLines{"One", "points = [[1, 2]]", 9, "bend_line.points", {"1 points", "in order"}},
        BadLines{
            "ATriple",
            "points = [[1, 2],\n[3, 4, 5]]",
            10,
            "bend_line.points[2]",
            {"found a list", "a pair [x, y]"}},
        BadLines{
            "ANumber", "points = [[1, 2], 3]", 9, "bend_line.points[2]", {"found 3", "[x, y]"}},
        BadLines{
            "NotANumber", "points = [[1, nan], [3, 4]]", 9, "bend_line.points[1]", {"100000 mm"}},
        BadLines{"FarAway", "points = [[1, 2], [3e9, 4]]", 9, "bend_line.points[2]", {"100000 mm"}},
        BadLines{
            "OnePlaceTwice",
            "points = [[0, 0], [20, 0], [20, 0.01], [40, 0]]",
            9,
            "bend_line.points",
            {"points 2 and 3 in one place, (20, 0.01) mm", "delete one"}},
        BadLines{
            "Kink",
            "points = [[0, 0], [20, 0], [40, 0], [60, 10], [80, 20]]",
            9,
            "bend_line.points",
            {"a kink of 26.6 deg at point 3, (40, 0) mm", "write round_kinks"}},
        BadLines{
            "NoRoomForARoundedKink",
            "round_kinks = 300\n" + kinked,
            10,
            "bend_line.points",
            {"a kink of 26.6 deg, concave, at point 3, (40, 0) mm with no room for an arc",
             "free on its two sides: 40 mm and 44.7",
             "it takes 70.8",
             "smaller round_kinks"}},
        BadLines{
            "RoundedTighterThanTheFlange",
            "round_kinks = 10\n" + kinked,
            10,
            "bend_line.points",
            {"a concave radius of 10",
             "in the rounded kink at point 3, (40, 0) mm",
             "flange_depth"}},
        BadLines{
            "RoundedToNothing",
            "round_kinks = 1\n" + kinked,
            9,
            "bend_line.round_kinks",
            {"2 mm to 10000 mm"}},
        BadLines{
            "KinkWithTheFlangeToTheRight",
            "flange_side = \"right\"\npoints = [[0, 0], [20, 0], [40, 0], [60, 10], [80, 20]]",
            10,
            "bend_line.points",
            {"at point 3, (40, 0) mm"}},
        BadLines{
            "SideUnknown",
            "flange_side = \"up\"\npoints = [[0, 0], [20, 0]]",
            9,
            "bend_line.flange_side",
            {"left or right"}},
        BadLines{
            "TooTightForTheFlange",
            "points = [[0, 0], [14, 0], [26.1, 5], [31.1, 17], [31.1, 35]]",
            9,
            "bend_line.points",
            {"a concave radius of 1", "in the curve between points ", ", near (2", "flange_depth"}},
        BadLines{
            "TooTightForTheWeb",
            "flange_side = \"right\"\n"
            "points = [[0, 0], [14, 0], [26.1, 5], [31.1, 17], [31.1, 35]]",
            10,
            "bend_line.points",
            {"a convex radius of 1", "in the curve between points ", "narrow the web"}}
    ),
    [](const auto& trial) { return trial.param.name; }
);

} // namespace
} // namespace flangewright::case_file
