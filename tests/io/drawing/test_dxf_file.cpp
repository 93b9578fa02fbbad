// Drawings written by another library (Debian's python3-ezdxf), read and joined by us.
#include "io/drawing/blank_outline.hpp"
#include "io/drawing/cut_out.hpp"
#include "io/drawing/drawn_line.hpp"
#include "io/drawing/dxf_file.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <optional>
#include <sstream>

namespace flangewright::drawing {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

constexpr double degree = std::numbers::pi / 180;
constexpr double rounding = 1e-6; // digits that drawings are written with

class DxfFile : public testing::Test {
protected:
    static void SetUpTestSuite() {
        // Tests run as processes of their own, side by side.
        folder_ = fs::temp_directory_path()
            / ("flangewright_drawings_" + std::to_string(static_cast<long>(getpid())));
        fs::create_directories(folder_);
        const std::string command = "/usr/bin/python3 '" FLANGEWRIGHT_SOURCE_DIR
                                    "/tests/io/drawing/write_drawings.py' '"
            + folder_.string() + "' >/dev/null 2>&1";
        is_written_ = std::system(command.c_str()) == 0;
    }
    static void TearDownTestSuite() { fs::remove_all(folder_); }
    void SetUp() override {
        if (!is_written_) {
            GTEST_SKIP() << "needs python3-ezdxf";
        }
    }

    static Drawing drawing(const std::string& name) {
        const auto read = read_drawing_file(folder_ / (name + ".dxf"), "bend");
        EXPECT_TRUE(read) << name << ": " << read.error().found;
        return read.value_or(Drawing{});
    }
    static Result<DrawnLine, DrawingProblem> joined_line(
        const std::string& name,
        Side flange = Side::left,
        std::optional<double> kink_radius = std::nullopt
    ) {
        std::vector<Stroke> strokes;
        const Drawing drawn = drawing(name);
        for (const Stroke& stroke : drawn.strokes) {
            strokes.push_back(scaled(stroke, drawn.mm_per_unit.value_or(1)));
        }
        return join(strokes, flange, kink_radius);
    }
    static std::string problem(const std::string& name) {
        const auto line = joined_line(name);
        return line ? "none" : line.error().found;
    }
    static void expect_s_curve(const std::string& name) {
        const auto line = joined_line(name);
        ASSERT_TRUE(line) << name << ": " << line.error().found;
        const std::vector<outline::Piece>& pieces = line->pieces;
        ASSERT_EQ(pieces.size(), 4U) << name;
        EXPECT_NEAR(pieces[0].length, 40, rounding) << name;
        EXPECT_EQ(pieces[0].curvature, 0);
        EXPECT_NEAR(pieces[1].length, 100 * 30 * degree, rounding) << name;
        EXPECT_NEAR(pieces[1].curvature * 100, 1, rounding) << name;
        EXPECT_NEAR(pieces[2].length, 20, rounding) << name;
        EXPECT_NEAR(pieces[3].length, 80 * 20 * degree, rounding) << name;
        EXPECT_NEAR(pieces[3].curvature * 80, -1, rounding) << name;
    }

    static fs::path folder_;
    static bool is_written_;
};

fs::path DxfFile::folder_;
bool DxfFile::is_written_ = false;

TEST_F(DxfFile, OneLineDrawnInManyWaysIsOneLine) {
    for (const char* name :
         {"lines_and_arcs", "old", "inches", "no_unit", "polyline", "old_polyline"}) {
        expect_s_curve(name);
    }
}

TEST_F(DxfFile, TellsTheUnitOfTheDrawing) {
    EXPECT_EQ(drawing("lines_and_arcs").mm_per_unit, 1);
    EXPECT_EQ(drawing("inches").mm_per_unit, 25.4);
    EXPECT_FALSE(drawing("no_unit").mm_per_unit.has_value());
}

TEST_F(DxfFile, FlangeToTheRightIsTheLineGoneTheOtherWay) {
    const auto line = joined_line("lines_and_arcs", Side::right);
    ASSERT_TRUE(line.has_value());
    ASSERT_EQ(line->pieces.size(), 4U);
    EXPECT_NEAR(line->pieces[0].curvature * 80, 1, rounding); // concave now
    EXPECT_NEAR(line->pieces[2].curvature * 100, -1, rounding);
    EXPECT_THAT(line->names[3], HasSubstr("the line from (50, 5) mm to (10, 5) mm"));
}

TEST_F(DxfFile, SeesThroughAnEntityDrawnFromBehind) {
    const auto line = joined_line("mirrored");
    ASSERT_TRUE(line.has_value());
    ASSERT_EQ(line->pieces.size(), 1U);
    EXPECT_NEAR(line->pieces[0].curvature * 100, 1, rounding);
    EXPECT_NEAR(line->pieces[0].length, 100 * 30 * degree, rounding);
    EXPECT_THAT(line->names[0], HasSubstr("the arc from (50, 5)"));
}

TEST_F(DxfFile, ArcPastTheAngleZeroTurnsTheShortWay) {
    const auto line = joined_line("arc_past_zero");
    ASSERT_TRUE(line.has_value()) << line.error().found;
    ASSERT_EQ(line->pieces.size(), 1U);
    EXPECT_NEAR(line->pieces[0].length, 120 * 60 * degree, rounding);
}

TEST_F(DxfFile, RationalSplineOfACircleHasItsRadius) {
    const auto line = joined_line("spline");
    ASSERT_TRUE(line.has_value());
    double length = 0;
    for (const outline::Piece& piece : line->pieces) {
        EXPECT_NEAR(piece.curvature * 100, 1, 1e-3);
        length += piece.length;
    }
    EXPECT_NEAR(length, 50 * std::numbers::pi, 1e-3);
}

TEST_F(DxfFile, SplineThroughFitPointsOfACircleHasItsRadius) {
    const auto line = joined_line("fit_points");
    ASSERT_TRUE(line.has_value());
    for (const outline::Piece& piece : line->pieces) {
        EXPECT_NEAR(piece.curvature * 150, 1, 1e-3);
    }
}

TEST_F(DxfFile, NamesThePlaceOfWhatIsNoSmoothLine) {
    EXPECT_THAT(problem("gap"), HasSubstr("a gap of 0.3 mm between (50, 5) mm and (50.3, 5) mm"));
    EXPECT_THAT(problem("kink"), HasSubstr("a kink of 14 deg at (50, 5) mm"));
    EXPECT_THAT(joined_line("kink").error().remedy, HasSubstr("round_kinks"));
    EXPECT_THAT(problem("branch"), HasSubstr("more than two lines that meet at (100, 18.39"));
    EXPECT_THAT(problem("circle"), HasSubstr("a closed line"));
    EXPECT_EQ(drawing("ellipse").n_not_understood, 1);
}

// Line of 40 along x and line of 40 by 10, turn t: an arc of radius 30 takes 30 tan(t / 2) of each.
TEST_F(DxfFile, KinkIsRoundedOnRequest) {
    const double turn = std::atan2(10, 40);
    const double taken = 30 * std::tan(0.5 * turn);
    for (const Side flange : {Side::left, Side::right}) {
        const auto line = joined_line("kink", flange, 30);
        ASSERT_TRUE(line.has_value()) << line.error().found;
        ASSERT_EQ(line->pieces.size(), 3U);
        const bool is_left = flange == Side::left;
        EXPECT_NEAR(line->pieces[is_left ? 0 : 2].length, 40 - taken, rounding);
        EXPECT_NEAR(line->pieces[1].length, 30 * turn, rounding);
        EXPECT_NEAR(line->pieces[1].curvature * 30, is_left ? 1 : -1, rounding);
        EXPECT_NEAR(line->pieces[is_left ? 2 : 0].length, std::hypot(40, 10) - taken, rounding);
        EXPECT_EQ(line->names[1], "the rounded kink at (50, 5) mm");
        ASSERT_EQ(line->rounded_kinks.size(), 1U);
        EXPECT_EQ(line->rounded_kinks[0].place, "(50, 5) mm");
        EXPECT_NEAR(line->rounded_kinks[0].turn, is_left ? turn : -turn, rounding);
        EXPECT_EQ(line->rounded_kinks[0].radius, 30);
    }
}

TEST_F(DxfFile, KinkBetweenLineAndArcIsRounded) {
    const auto line = joined_line("kink_at_arc", Side::left, 8);
    ASSERT_TRUE(line.has_value()) << line.error().found;
    ASSERT_EQ(line->pieces.size(), 3U);
    // The arc's centre lies 8 above the line and 58 from that of the circle of radius 50.
    EXPECT_NEAR(line->pieces[0].length, 40 - (std::sqrt(58.0 * 58 - 8 * 8) - 50), rounding);
    EXPECT_NEAR(line->pieces[1].length, 8 * (90 * degree - std::asin(8.0 / 58)), rounding);
    EXPECT_NEAR(line->pieces[2].length, 50 * (60 * degree - std::asin(8.0 / 58)), rounding);
}

TEST_F(DxfFile, LineWithoutKinkIsLeftAloneByRounding) {
    const auto line = joined_line("polyline", Side::left, 5);
    ASSERT_TRUE(line.has_value());
    EXPECT_EQ(line->pieces.size(), 4U);
    EXPECT_TRUE(line->rounded_kinks.empty());
}

TEST_F(DxfFile, NamesAKinkWithoutRoomForItsArc) {
    const auto line = joined_line("kink", Side::left, 400);
    ASSERT_FALSE(line.has_value());
    EXPECT_EQ(
        line.error().found,
        "a kink of 14.0 deg, concave, at (50, 5) mm with no room for an arc of radius 400 mm (free "
        "on its two sides: 40 mm and 41.23 mm)"
    );
    EXPECT_THAT(line.error().allowed, HasSubstr("it takes 49.24 mm of each"));
    EXPECT_THAT(line.error().remedy, HasSubstr("smaller round_kinks"));
}

TEST_F(DxfFile, ListsTheLayersWhenAnotherIsAskedFor) {
    const auto read = read_drawing_file(folder_ / "polyline.dxf", "FOLD");
    ASSERT_TRUE(read.has_value());
    EXPECT_TRUE(read->strokes.empty());
    EXPECT_THAT(read->layers, testing::ElementsAre("OUTLINE", "BEND"));
}

// Web of 30, flat flange of 14; a slot 4 wide with its bottom 8 off the line, at 20 deg of the arc.
TEST_F(DxfFile, BlankAndCutOutsAreSeenFromTheBendLine) {
    const auto on_layer = [](const std::string& layer) {
        const auto read = read_drawing_file(folder_ / "blank.dxf", layer);
        return read ? read->strokes : std::vector<Stroke>{};
    };
    const auto joined = joined_line("blank");
    ASSERT_TRUE(joined.has_value());
    const PlacedLine line(*joined);
    const auto outline = blank_outline_of(on_layer("BLANK"), line);
    ASSERT_TRUE(outline.has_value()) << outline.error().found;
    EXPECT_NEAR(outline->web_width, 30, rounding);
    EXPECT_NEAR(outline->flat_width, 14, rounding);
    EXPECT_TRUE(outline->flat_widths.is_empty());
    const auto holes = circles_of(on_layer("HOLES"));
    ASSERT_TRUE(holes.has_value()) << holes.error().found;
    ASSERT_EQ(holes->size(), 3U);
    EXPECT_NEAR((*holes)[0].diameter, 6, rounding);
    EXPECT_NEAR(line.locate((*holes)[0].centre).distance, -15, rounding);
    EXPECT_NEAR((*holes)[2].diameter, 8, rounding); // of two arcs
    const auto slots = slots_of(on_layer("RELIEF"));
    ASSERT_TRUE(slots.has_value()) << slots.error().found;
    ASSERT_EQ(slots->size(), 1U);
    EXPECT_NEAR(slots->front().width, 4, rounding);
    const outline::LinePosition bottom = line.locate(slots->front().centre);
    EXPECT_NEAR(bottom.station, 40 + 100 * 20 * degree, rounding);
    EXPECT_NEAR(bottom.distance, 10, rounding);
    EXPECT_NEAR(slots->front().axis.dot(line.outward_at(bottom.station)), 1, rounding);
}

// Cut short anywhere, a drawing gives an answer or a problem, never an exception.
TEST_F(DxfFile, BearsADrawingCutShort) {
    std::ifstream stream(folder_ / "polyline.dxf");
    std::ostringstream text;
    text << stream.rdbuf();
    const std::string whole = text.str();
    for (std::size_t length = 0; length < whole.size(); length += 97) {
        EXPECT_NO_THROW((void)read_drawing(std::string_view(whole).substr(0, length), "BEND"));
    }
}

TEST(DxfText, ThatIsNoneIsAProblem) {
    EXPECT_FALSE(read_drawing("", "BEND").has_value());
    EXPECT_FALSE(read_drawing("hello", "BEND").has_value());
    EXPECT_FALSE(read_drawing(std::string("ENTITIES\0", 9), "BEND").has_value());
    EXPECT_FALSE(read_drawing_file("/no/such.dxf", "BEND").has_value());
    EXPECT_FALSE(read_drawing_file("/tmp", "BEND").has_value());
}

} // namespace
} // namespace flangewright::drawing
