// Drawings written by another library (Debian's python3-ezdxf), read and joined by us.
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
    static Result<DrawnLine, DrawingProblem>
    joined_line(const std::string& name, Side flange = Side::left) {
        std::vector<Stroke> strokes;
        const Drawing drawn = drawing(name);
        for (const Stroke& stroke : drawn.strokes) {
            strokes.push_back(scaled(stroke, drawn.mm_per_unit.value_or(1)));
        }
        return join(strokes, flange);
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
    EXPECT_THAT(problem("branch"), HasSubstr("more than two lines that meet at (100, 18.39"));
    EXPECT_THAT(problem("circle"), HasSubstr("a closed line"));
    EXPECT_EQ(drawing("ellipse").n_not_understood, 1);
}

TEST_F(DxfFile, ListsTheLayersWhenAnotherIsAskedFor) {
    const auto read = read_drawing_file(folder_ / "polyline.dxf", "FOLD");
    ASSERT_TRUE(read.has_value());
    EXPECT_TRUE(read->strokes.empty());
    EXPECT_THAT(read->layers, testing::ElementsAre("OUTLINE", "BEND"));
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
