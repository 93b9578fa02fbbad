// Bend lines written as a chain of lines and arcs: what is read, and every way to get it wrong that
// we thought of.
#include "io/case_file/case_file.hpp"
#include "io/units/angle.hpp"
#include "tests/io/case_file/bad_lines.hpp"
#include "tests/io/case_file/case_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::case_file {
namespace {

/// The good case with pieces in lines 9 and on instead of an arc; the flange is 18 mm deep, the web
/// 40 mm wide.
std::string chain_of(const std::string& pieces) {
    return with_line(8, "curve = \"chain\"", with_line(9, pieces, with_line(10, "")));
}

TEST(Chain, IsReadPieceByPieceInTheirUnits) {
    const auto result = read_case_text(
        chain_of("pieces = [ {line = 80}, {concave = 200, sweep = 20}, {line = \"1 in\"}, "
                 "{convex = 150, sweep = 15} ]"),
        "case.toml"
    );
    ASSERT_TRUE(result) << line_for(result.error().front());
    const outline::BendLine& line = result->job.blank.line;
    EXPECT_EQ(line.curve(), outline::Curve::mixed);
    const std::vector<outline::Piece> pieces = line.pieces();
    ASSERT_EQ(pieces.size(), 4U);
    EXPECT_DOUBLE_EQ(pieces[0].length, 80);
    EXPECT_DOUBLE_EQ(pieces[1].length, 200 * units::radians(20));
    EXPECT_DOUBLE_EQ(pieces[1].curvature, 1.0 / 200);
    EXPECT_DOUBLE_EQ(pieces[2].length, 25.4);
    EXPECT_DOUBLE_EQ(pieces[3].length, 150 * units::radians(15));
    EXPECT_DOUBLE_EQ(pieces[3].curvature, -1.0 / 150);
}

// The tightest concave place needs the widest blank; it is cut that wide all along.
TEST(Chain, TakesTheFlatWidthOfItsTightestConcavePiece) {
    const auto chain = read_case_text(
        chain_of("pieces = [{convex = 90, sweep = 9}, {concave = 200, sweep = 20}, "
                 "{concave = 500, sweep = 5}]"),
        "case.toml"
    );
    const auto arc = read_case_text(good_case, "case.toml");
    ASSERT_TRUE(chain) << line_for(chain.error().front());
    EXPECT_DOUBLE_EQ(chain->job.blank.flange_width, arc->job.blank.flange_width);
}

TEST(Chain, OfOnePieceIsThatLine) {
    const auto result = read_case_text(chain_of("pieces = [{concave = 200, sweep = 20}]"), "c");
    ASSERT_TRUE(result) << line_for(result.error().front());
    EXPECT_EQ(result->job.blank.line.curve(), outline::Curve::concave);
    EXPECT_DOUBLE_EQ(result->job.blank.line.radius(), 200);
}

class BadChainCase : public ::testing::TestWithParam<BadLines> {};

TEST_P(BadChainCase, GivesOneErrorThatNamesLineAndKey) {
    expect_the_one_error(read_case_text(chain_of(GetParam().lines), "case.toml"), GetParam());
}

INSTANTIATE_TEST_SUITE_P(
    All,
    BadChainCase,
    ::testing::Values(
        BadLines{"NoPieces", "", 7, "bend_line.pieces", {"found nothing"}},
        BadLines{
            "RoundKinks",
            "pieces = [{line = 80}]\nround_kinks = 5",
            10,
            "bend_line.round_kinks",
            {"no kinks", "delete it"}},
        BadLines{"EmptyList", "pieces = []", 9, "bend_line.pieces", {"list of tables"}},
        BadLines{"PiecesAreANumber", "pieces = 3", 9, "bend_line.pieces", {"list of tables"}},
        BadLines{"PieceIsANumber", "pieces = [{line = 9}, 3]", 9, "bend_line.pieces", {"a list"}},
        BadLines{
            "UnknownKey",
            "pieces = [{line = 80},\n{concav = 200, sweep = 20}]",
            10,
            "bend_line.pieces[2].concav",
            {"unknown key", "write concave"}},
        BadLines{
            "UnknownKeyBeside",
            "pieces = [{line = 80, colour = 3}]",
            9,
            "bend_line.pieces[1].colour",
            {"unknown key", "line, concave"}},
        BadLines{"EmptyPiece", "pieces = [{}]", 9, "bend_line.pieces[1]", {"an empty piece"}},
        BadLines{
            "SweepAlone", "pieces = [{sweep = 9}]", 9, "bend_line.pieces[1]", {"without a radius"}},
        BadLines{
            "SweepMissing",
            "pieces = [{line = 80},\n{concave = 200}]",
            10,
            "bend_line.pieces[2].sweep",
            {"found nothing"}},
        BadLines{
            "SweepOnALine",
            "pieces = [{line = 80, sweep = 3}]",
            9,
            "bend_line.pieces[1].sweep",
            {"no sweep on a straight piece"}},
        BadLines{
            "TwoKindsInOne",
            "pieces = [{line = 80, convex = 300, sweep = 3}]",
            9,
            "bend_line.pieces[1].convex",
            {"line and convex in one piece"}},
        BadLines{
            "LengthBesidePieces",
            "pieces = [{line = 80}]\nlength = 80",
            10,
            "bend_line.length",
            {"beside the pieces of a bend line"}},
        BadLines{
            "NegativeLength", "pieces = [{line = -1}]", 9, "bend_line.pieces[1].line", {"0.5 mm"}},
        BadLines{
            "NoNumber",
            "pieces = [{convex = nan, sweep = 3}]",
            9,
            "bend_line.pieces[1].convex",
            {"2 mm to 10000 mm"}},
        BadLines{
            "ConcaveTooTightForTheFlange",
            "pieces = [{line = 30},\n{concave = 15, sweep = 20}]",
            10,
            "bend_line.pieces[2].concave",
            {"found 15", "flange_depth must be less than 7.9", "larger radius there"}},
        BadLines{
            "ConvexTooTightForTheWeb",
            "pieces = [{line = 30},\n{convex = 41, sweep = 20}]",
            10,
            "bend_line.pieces[2].convex",
            {"at least 41.6 mm", "narrow the web"}},
        BadLines{
            "TurnsPastAFullCircle",
            "pieces = [{concave = 90, sweep = 180}, {line = 500}, {concave = 90, sweep = 180}, "
            "{concave = 90, sweep = 9}]",
            9,
            "bend_line.pieces",
            {"through 369 deg", "less than 360 deg"}},
        BadLines{
            "CrossesItself",
            "pieces = [{line = 300}, {concave = 60, sweep = 150}, {concave = 60, sweep = 100}, "
            "{line = 300}]",
            9,
            "bend_line.pieces",
            {"crosses itself (piece 1 and piece 4)"}},
        BadLines{
            "FlangesMeet",
            "pieces = [{line = 300}, {concave = 40, sweep = 90}, {concave = 40, sweep = 120}, "
            "{line = 120}]",
            9,
            "bend_line.pieces",
            {"the flange along piece 1 runs into piece 4", "narrow the flange"}},
        BadLines{
            "WebsMeet",
            "pieces = [{line = 150}, {convex = 45, sweep = 180}, {line = 20}, {convex = 300, "
            "sweep = 20}]",
            9,
            "bend_line.pieces",
            {"the web along piece 1 runs into piece 4", "narrow the web"}},
        BadLines{
            "LongerThanAFlange",
            "pieces = [{line = 2000}, {line = 1500}]",
            9,
            "bend_line.pieces",
            {"found a bend line 3500 mm long"}}
    ),
    [](const auto& trial) { return trial.param.name; }
);

TEST(Chain, NamesAnInnerUnknownKeyBesideOtherProblems) {
    const auto result =
        read_case_text(chain_of("pieces = [{lin = 3}, {concave = 1, sweep = 20}]"), "case.toml");
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(result.error().size(), 2U);
}

} // namespace
} // namespace flangewright::case_file
