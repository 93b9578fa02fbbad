// Outline, holes, pins and reliefs from layers of a drawing: the same as when written in the case.
// The drawings were written by another library (tests/io/drawing/write_drawings.py) and are kept
// inputs of the fuzzer.
#include "io/case_file/case_file.hpp"
#include "tests/io/case_file/bad_lines.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <ostream>
#include <string>
#include <vector>

namespace flangewright::case_file {
namespace {

constexpr double rounding = 1e-6; // digits that drawings are written with
constexpr double degree = std::numbers::pi / 180;

const std::string beside_the_drawings = FLANGEWRIGHT_SOURCE_DIR "/tests/fuzz/corpus/drawing/c.toml";

CaseFileResult
read_case(const std::string& line, const std::string& blank, const std::string& rest = "") {
    return read_case_text(
        "title = \"Drawn\"\n[sheet]\nmaterial = \"2024-O\"\nthickness = 0.8\n[bend_line]\n" + line
            + "\n[blank]\n" + blank + "\n[block]\nnose_radius = 2.4\n[drive]\nkind = \"wiper\"\n"
            + rest,
        beside_the_drawings
    );
}

std::string drawn(const std::string& file, const std::string& keys = "") {
    return "curve = \"drawing\"\nfile = \"" + file + ".dxf\"\nlayer = \"BEND\"\n" + keys;
}

const std::string all_layers =
    "outline_layer = \"BLANK\"\nhole_layer = \"HOLES\"\npin_layer = \"PINS\"\n"
    "relief_layer = \"RELIEF\"";

job::Job read_well(const CaseFileResult& result) {
    EXPECT_TRUE(result.has_value()) << (result ? "" : line_for(result.error().front()));
    return result ? result->job : job::Job{};
}

void expect_same(const outline::Openings& one, const outline::Openings& other) {
    ASSERT_EQ(one.holes.size(), other.holes.size());
    for (std::size_t i = 0; i < one.holes.size(); ++i) {
        EXPECT_NEAR(one.holes[i].station, other.holes[i].station, rounding);
        EXPECT_NEAR(one.holes[i].distance, other.holes[i].distance, rounding);
        EXPECT_NEAR(one.holes[i].diameter, other.holes[i].diameter, rounding);
        EXPECT_EQ(one.holes[i].is_pin, other.holes[i].is_pin);
    }
    ASSERT_EQ(one.notches.size(), other.notches.size());
    for (std::size_t i = 0; i < one.notches.size(); ++i) {
        EXPECT_NEAR(one.notches[i].station, other.notches[i].station, rounding);
        EXPECT_NEAR(one.notches[i].width, other.notches[i].width, rounding);
        EXPECT_NEAR(one.notches[i].depth, other.notches[i].depth, rounding);
    }
}

void expect_same_blank(const job::Job& one, const job::Job& other) {
    const job::Blank& a = one.blank;
    const job::Blank& b = other.blank;
    EXPECT_NEAR(a.line.length(), b.line.length(), rounding);
    EXPECT_NEAR(a.line.tightest_curvature(), b.line.tightest_curvature(), rounding);
    EXPECT_NEAR(a.web_width, b.web_width, rounding);
    EXPECT_NEAR(a.flange_width, b.flange_width, rounding);
    EXPECT_EQ(a.flange_depth, b.flange_depth);
    EXPECT_EQ(a.trim_allowance, b.trim_allowance);
    const auto& widths = a.flange_widths.points();
    ASSERT_EQ(widths.size(), b.flange_widths.points().size());
    for (std::size_t i = 0; i < widths.size(); ++i) {
        EXPECT_NEAR(widths[i].station, b.flange_widths.points()[i].station, rounding);
        EXPECT_NEAR(widths[i].value, b.flange_widths.points()[i].value, rounding);
    }
    expect_same(a.openings, b.openings);
}

const std::string written_line =
    "curve = \"chain\"\npieces = [{line = 40}, {concave = 100, sweep = 30}]";

/// In the order of the drawing; on the arc stations are those of 15, 24 and 20 degrees.
std::string written_openings() {
    const auto at = [](double turn) { return std::to_string(40 + 100 * turn * degree); };
    return "holes = [{station = 20, web = 15, diameter = 6}, "
           "{station = 30, flange = 9, diameter = 3.2}, {station = "
        + at(15) + ", web = 12, diameter = 8}, {station = 8, web = 20, diameter = 5, pin = true}, "
        + "{station = " + at(24) + ", web = 20, diameter = 5, pin = true}]\n"
        + "notches = [{station = " + at(20) + ", width = 4, depth = 6}]";
}

TEST(DrawnBlank, IsTheOneWrittenInTheCase) {
    const std::string written = "web_width = 30\nflat_width = 14\n" + written_openings();
    expect_same_blank(
        read_well(read_case(drawn("blank", all_layers), "")),
        read_well(read_case(written_line, written))
    );
}

TEST(DrawnBlank, IsTheSameInInches) {
    expect_same_blank(
        read_well(read_case(drawn("blank_inches", all_layers), "")),
        read_well(read_case(drawn("blank", all_layers), ""))
    );
}

TEST(DrawnBlank, HasReliefsAsDeepAsTheDevelopedWidthLeaves) {
    const std::string depth = "web_width = 30\nflange_depth = 13";
    const std::string keys =
        "hole_layer = \"HOLES\"\npin_layer = \"PINS\"\nrelief_layer = \"RELIEF\"";
    const job::Job job = read_well(read_case(drawn("blank", keys), depth));
    ASSERT_EQ(job.blank.openings.notches.size(), 1U);
    EXPECT_NEAR(job.blank.openings.notches[0].depth, job.blank.flange_width - 8, rounding);
    EXPECT_NE(job.blank.flange_width, 14);
}

TEST(DrawnBlank, AddsItsHolesToThoseWritten) {
    const std::string written =
        "web_width = 30\nflat_width = 14\nholes = [{station = 60, web = 8, diameter = 4}]";
    const job::Job job = read_well(read_case(drawn("blank", "hole_layer = \"HOLES\""), written));
    ASSERT_EQ(job.blank.openings.holes.size(), 4U);
    EXPECT_EQ(job.blank.openings.holes[0].station, 60);
    EXPECT_NEAR(job.blank.openings.holes[1].station, 20, rounding);
}

// The line runs from right to left on this drawing and is gone along from the left.
TEST(DrawnBlank, WithAnEdgeThatSlopesIsATableOverTheStation) {
    expect_same_blank(
        read_well(read_case(drawn("tapered", "outline_layer = \"BLANK\""), "")),
        read_well(read_case(
            "curve = \"straight\"\nlength = 90", "web_width = 30\nflat_width = [[0, 18], [90, 12]]"
        ))
    );
}

TEST(DrawnBlank, ChangesSidesForAFlangeOnTheRight) {
    const std::string keys =
        "outline_layer = \"BLANK\"\nhole_layer = \"HOLES\"\nflange_side = \"right\"";
    const job::Blank blank = read_well(read_case(drawn("blank", keys), "")).blank;
    EXPECT_NEAR(blank.web_width, 14, rounding);
    EXPECT_NEAR(blank.flange_width, 30, rounding);
    ASSERT_EQ(blank.openings.holes.size(), 3U);
    EXPECT_NEAR(blank.openings.holes[0].station, blank.line.length() - 20, rounding);
    EXPECT_NEAR(blank.openings.holes[0].distance, 15, rounding);
    EXPECT_NEAR(blank.openings.holes[1].distance, -9, rounding);
}

// Edge of an arc through heights of 12, 15 and 12 over 90 mm.
TEST(DrawnBlank, KeepsACurvedEdgeWithinAHundredth) {
    const job::Job job =
        read_well(read_case(drawn("curved_edge", "outline_layer = \"BLANK\""), ""));
    const double rise = 3;
    const double radius = (45 * 45 + rise * rise) / (2 * rise);
    ASSERT_FALSE(job.blank.flange_widths.is_empty());
    EXPECT_LT(job.blank.flange_widths.points().size(), 40U);
    for (double station = 0; station <= 90; station += 1.7) {
        const double off = station - 45;
        const double edge = 15 - radius + std::sqrt(radius * radius - off * off);
        EXPECT_NEAR(job.blank.flange_widths.at(station), edge, 0.0101) << station;
    }
}

struct BadDrawn {
    std::string name;
    std::string file;
    std::string keys; ///< one line
    std::string blank;
    std::string key;
    std::vector<std::string> says;
};

std::ostream& operator<<(std::ostream& stream, const BadDrawn& bad) {
    return stream << bad.name;
}

const std::string sizes = "web_width = 30\nflat_width = 14";

class BadDrawnBlank : public ::testing::TestWithParam<BadDrawn> {};

TEST_P(BadDrawnBlank, GivesOneErrorThatNamesLayerHandleAndPlace) {
    const BadDrawn& bad = GetParam();
    const auto result = read_case(drawn(bad.file, bad.keys), bad.blank);
    const int line = bad.key.starts_with("bend_line") ? 9 : 11;
    expect_the_one_error(result, {bad.name, bad.keys, line, bad.key, bad.says});
}

INSTANTIATE_TEST_SUITE_P(
    Outline,
    BadDrawnBlank,
    ::testing::Values(
        BadDrawn{
            "Open",
            "outline_open",
            "outline_layer = \"BLANK\"",
            "",
            "bend_line.outline_layer",
            {"an outline that is open at ", "(the line 3", "on layer BLANK"}},
        BadDrawn{
            "Second",
            "outline_second",
            "outline_layer = \"BLANK\"",
            "",
            "bend_line.outline_layer",
            {"a second outline at ", "layer BLANK"}},
        BadDrawn{
            "WebOfTwoWidths",
            "outline_web",
            "outline_layer = \"BLANK\"",
            "",
            "bend_line.outline_layer",
            {"a web 3", " mm wide", "elsewhere", "at one distance all along"}},
        BadDrawn{
            "PastTheEnd",
            "outline_end",
            "outline_layer = \"BLANK\"",
            "",
            "bend_line.outline_layer",
            {"an edge past the bend line's end at (", "cut square"}},
        BadDrawn{
            "Step",
            "outline_step",
            "outline_layer = \"BLANK\"",
            "",
            "bend_line.outline_layer",
            {"a step or slope of more than 45 deg in the flange's edge at (30, ", "tabs"}},
        BadDrawn{
            "Elsewhere",
            "outline_beside",
            "outline_layer = \"BLANK\"",
            "",
            "bend_line.outline_layer",
            {"layer BLANK", "blank's outline"}},
        BadDrawn{
            "NoSuchLayer",
            "blank",
            "outline_layer = \"FLAT\"",
            "",
            "bend_line.outline_layer",
            {"nothing drawn on layer FLAT", "BEND, BLANK", "with the blank's outline alone"}},
        BadDrawn{
            "BesideAWidth",
            "blank",
            "outline_layer = \"BLANK\"",
            "web_width = 30",
            "blank.web_width",
            {"web_width beside outline_layer", "delete it"}},
        BadDrawn{
            "TooNarrowForTheNose",
            "blank",
            "outline_layer = \"BLANK\"",
            "trim_allowance = 12",
            "bend_line.outline_layer",
            {"drawn there, flat_width = 14 mm", "two thicknesses of straight flange"}}
    ),
    [](const auto& trial) { return trial.param.name; }
);

INSTANTIATE_TEST_SUITE_P(
    Holes,
    BadDrawnBlank,
    ::testing::Values(
        BadDrawn{
            "Square",
            "bad_cut_outs",
            "hole_layer = \"SQUARE\"",
            sizes,
            "bend_line.hole_layer",
            {"the line ", "from (30, -10) mm", "which is no circle on layer SQUARE"}},
        BadDrawn{
            "OpenArc",
            "bad_cut_outs",
            "hole_layer = \"OPEN\"",
            sizes,
            "bend_line.hole_layer",
            {"the arc ", "an outline that is open, which is no circle"}},
        BadDrawn{
            "Points",
            "bad_cut_outs",
            "hole_layer = \"POINTS\"",
            sizes,
            "bend_line.hole_layer",
            {"1 points on layer POINTS", "a circle of the hole's diameter"}},
        BadDrawn{
            "Ellipse",
            "bad_cut_outs",
            "hole_layer = \"ELLIPSE\"",
            sizes,
            "bend_line.hole_layer",
            {"1 things on layer ELLIPSE that are no line (the first: ellipse 3"}},
        BadDrawn{
            "InTheBend",
            "bad_cut_outs",
            "hole_layer = \"IN_BEND\"",
            sizes,
            "bend_line.hole_layer",
            {"the circle 3", "about (30, 6) mm on layer IN_BEND: flange 1 mm", "bend's end"}},
        BadDrawn{
            "Tiny",
            "bad_cut_outs",
            "hole_layer = \"TINY\"",
            sizes,
            "bend_line.hole_layer",
            {"diameter 0.4 mm", "0.5 to 500 mm"}},
        BadDrawn{
            "Twice",
            "bad_cut_outs",
            "hole_layer = \"TWICE\"",
            sizes,
            "bend_line.hole_layer",
            {"about (33, -10) mm on layer TWICE: station an opening that runs into the circle",
             "about (30, -10) mm"}},
        BadDrawn{
            "PinInTheFlange",
            "bad_cut_outs",
            "pin_layer = \"IN_FLANGE\"",
            sizes,
            "bend_line.pin_layer",
            {"a pin in the flange", "put the hole on hole_layer"}}
    ),
    [](const auto& trial) { return trial.param.name; }
);

INSTANTIATE_TEST_SUITE_P(
    Reliefs,
    BadDrawnBlank,
    ::testing::Values(
        BadDrawn{
            "Square",
            "bad_cut_outs",
            "relief_layer = \"SQUARE\"",
            sizes,
            "bend_line.relief_layer",
            {"an outline with the line ", "no slot with a half-round bottom on layer SQUARE"}},
        BadDrawn{
            "Leaning",
            "bad_cut_outs",
            "relief_layer = \"LEANING\"",
            sizes,
            "bend_line.relief_layer",
            {"on layer LEANING: axis turned by ", "square to the bend line"}},
        BadDrawn{
            "Short",
            "bad_cut_outs",
            "relief_layer = \"SHORT\"",
            sizes,
            "bend_line.relief_layer",
            {"mouth 2.0", "short of the flat edge", "14 mm from the bend tangent"}},
        BadDrawn{
            "IntoTheBend",
            "bad_cut_outs",
            "relief_layer = \"DEEP\"",
            sizes,
            "bend_line.relief_layer",
            {"on layer DEEP: depth 13 mm", "short of the bend"}}
    ),
    [](const auto& trial) { return trial.param.name; }
);

// Layers of a line that is not drawn are keys like any that is not known.
TEST(DrawnBlank, NeedsADrawnLine) {
    const auto result =
        read_case("curve = \"straight\"\nlength = 90\nhole_layer = \"HOLES\"", sizes);
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().front().key, "bend_line.hole_layer");
}

} // namespace
} // namespace flangewright::case_file
