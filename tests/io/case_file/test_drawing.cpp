// Bend lines taken from drawing files; the drawings are kept inputs of the fuzzer.
#include "io/case_file/case_file.hpp"
#include "tests/io/case_file/bad_lines.hpp"
#include "tests/io/case_file/case_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::case_file {
namespace {

const std::string beside_the_drawings = FLANGEWRIGHT_SOURCE_DIR "/tests/fuzz/corpus/drawing/c.toml";

CaseFileResult read_drawn_case(const std::string& lines) {
    const std::string text =
        with_line(8, "curve = \"drawing\"", with_line(9, lines, with_line(10, "")));
    return read_case_text(text, beside_the_drawings);
}

// Line of 40, left turn of 30 deg with radius 100, line of 20, right turn of 20 deg with 80.
TEST(DrawnBendLine, IsReadFromBesideTheCaseFile) {
    const auto result = read_drawn_case("file = \"polyline.dxf\"\nlayer = \"BEND\"");
    ASSERT_TRUE(result) << line_for(result.error().front());
    const outline::BendLine& line = result->job.blank.line;
    EXPECT_NEAR(line.concave_radius(), 100, 1e-6);
    EXPECT_NEAR(line.convex_radius(), 80, 1e-6);
    EXPECT_NEAR(line.length(), 60 + std::numbers::pi * (100.0 * 30 + 80.0 * 20) / 180, 1e-6);
    EXPECT_EQ(line.curvature(1), 0);
}

TEST(DrawnBendLine, TurnsRoundForAFlangeOnTheRight) {
    const auto result =
        read_drawn_case("file = \"polyline.dxf\"\nlayer = \"BEND\"\nflange_side = \"right\"");
    ASSERT_TRUE(result) << line_for(result.error().front());
    EXPECT_NEAR(result->job.blank.line.concave_radius(), 80, 1e-6);
    EXPECT_NEAR(result->job.blank.line.curvature(1) * 80, 1, 1e-6);
}

// Line of 40 and line of 40 by 10 that meet at a kink of 14 deg.
TEST(DrawnBendLine, HasItsKinkRoundedOnRequest) {
    const auto result =
        read_drawn_case("file = \"kink.dxf\"\nlayer = \"BEND\"\nround_kinks = \"4 in\"");
    ASSERT_TRUE(result) << line_for(result.error().front());
    const double turn = std::atan2(10, 40);
    const outline::BendLine& line = result->job.blank.line;
    EXPECT_NEAR(line.concave_radius(), 101.6, 1e-9);
    EXPECT_NEAR(
        line.length(), 40 + std::hypot(40, 10) - 101.6 * (2 * std::tan(0.5 * turn) - turn), 1e-9
    );
    ASSERT_EQ(result->rounded_kinks.size(), 1U);
    EXPECT_EQ(result->rounded_kinks[0].place, "(50, 5) mm");
    EXPECT_NEAR(result->rounded_kinks[0].turn, turn, 1e-9);
}

class BadDrawingCase : public ::testing::TestWithParam<BadLines> {};

TEST_P(BadDrawingCase, GivesOneErrorThatNamesKeyAndPlace) {
    expect_the_one_error(read_drawn_case(GetParam().lines), GetParam());
}

INSTANTIATE_TEST_SUITE_P(
    All,
    BadDrawingCase,
    ::testing::Values(
        BadLines{"NoFile", "layer = \"BEND\"", 7, "bend_line.file", {"found nothing"}},
        BadLines{"NoLayer", "file = \"polyline.dxf\"", 7, "bend_line.layer", {"found nothing"}},
        BadLines{
            "FileMissing",
            "file = \"none.dxf\"\nlayer = \"BEND\"",
            9,
            "bend_line.file",
            {"no file ", "none.dxf", "check the path"}},
        BadLines{
            "NoDrawing",
            "file = \"../case/demo.toml\"\nlayer = \"BEND\"",
            9,
            "bend_line.file",
            {"no sound DXF text", "save the drawing again"}},
        BadLines{
            "LayerUnknown",
            "file = \"polyline.dxf\"\nlayer = \"FOLD\"",
            10,
            "bend_line.layer",
            {"nothing drawn on layer FOLD", "OUTLINE, BEND"}},
        BadLines{
            "OnlyAnEllipse",
            "file = \"ellipse.dxf\"\nlayer = \"BEND\"",
            10,
            "bend_line.layer",
            {"1 things on layer BEND that are no line", "into arcs"}},
        BadLines{
            "Gap",
            "file = \"gap.dxf\"\nlayer = \"BEND\"",
            10,
            "bend_line.layer",
            {"a gap of 0.3 mm between (50, 5) mm and (50.3, 5) mm on layer BEND"}},
        BadLines{
            "Kink",
            "file = \"kink.dxf\"\nlayer = \"BEND\"",
            10,
            "bend_line.layer",
            {"a kink of 14 deg at (50, 5) mm on layer BEND", "write round_kinks"}},
        BadLines{
            "NoRoomForARoundedKink",
            "file = \"kink.dxf\"\nlayer = \"BEND\"\nround_kinks = 400",
            10,
            "bend_line.layer",
            {"a kink of 14.0 deg, concave, at (50, 5) mm with no room for an arc of radius 400 mm",
             "40 mm and 41.23 mm) on layer BEND",
             "it takes 49.24 mm"}},
        BadLines{
            "RoundedTighterThanTheFlange",
            "file = \"kink.dxf\"\nlayer = \"BEND\"\nround_kinks = 15",
            9,
            "bend_line.file",
            {"a concave radius of 15 mm in the rounded kink at (50, 5) mm", "flange_depth"}},
        BadLines{
            "RoundKinksIsAWord",
            "file = \"kink.dxf\"\nlayer = \"BEND\"\nround_kinks = \"yes\"",
            11,
            "bend_line.round_kinks",
            {"yes"}},
        BadLines{
            "TooTightForTheFlange",
            "file = \"tight.dxf\"\nlayer = \"BEND\"",
            9,
            "bend_line.file",
            {"a concave radius of 12 mm in the arc from (0, 0) mm to ", "flange_depth"}}
    ),
    [](const auto& trial) { return trial.param.name; }
);

} // namespace
} // namespace flangewright::case_file
