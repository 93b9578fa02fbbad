// Every way to get a case file wrong that we thought of: the message must name line and key.
#include "io/case_file/case_file.hpp"
#include "tests/io/case_file/case_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::case_file {
namespace {

struct BadCase {
    std::string name;
    int replaced_line = 0;
    std::string text;
    int line = 0;
    std::string key;
    std::string says; ///< a piece of the line
};

class BadCaseFile : public ::testing::TestWithParam<BadCase> {};

TEST_P(BadCaseFile, NamesLineAndKey) {
    const BadCase& bad = GetParam();
    const auto result = read_case_text(with_line(bad.replaced_line, bad.text), "case.toml");
    ASSERT_FALSE(result.has_value());
    ASSERT_FALSE(result.error().empty());
    const InputProblem& problem = result.error().front();
    EXPECT_EQ(problem.line, bad.line) << line_for(problem);
    EXPECT_EQ(problem.key, bad.key) << line_for(problem);
    EXPECT_THAT(line_for(problem), ::testing::HasSubstr(bad.says));
    EXPECT_FALSE(problem.found.empty());
    EXPECT_FALSE(problem.allowed.empty());
    EXPECT_FALSE(problem.remedy.empty());
    EXPECT_EQ(result.error().size(), 1U) << line_for(result.error().back());
}

const std::vector<BadCase> bad_cases{
    {"UnknownKeyAtTheTop", 1, "title = \"B\"\ncolour = 3", 2, "colour", "an unknown key"},
    {"UnknownSection", 27, "[rum]", 27, "rum", "write run"},
    {"KeyInTheWrongSection", 20, "web_width = 3", 20, "block.web_width", "move it to [blank]"},
    {"TitleMissing", 1, "", 1, "title", "found nothing"},
    {"TitleEmpty", 1, "title = \"\"", 1, "title", "1 to 200 letters"},
    {"TitleIsNumber", 1, "title = 7", 1, "title", "text in quotes"},
    {"UnitUnknown", 2, "unit = \"furlong\"", 2, "unit", "mm or in"},
    {"MaterialUnknown", 4, "material = \"2024-X\"", 4, "sheet.material", "2024-O"},
    {"MaterialIsNumber", 4, "material = 2024", 4, "sheet.material", "text in quotes"},
    {"ThicknessTwoMetres", 5, "thickness = \"2 m\"", 5, "sheet.thickness", "0.1 mm to 6 mm"},
    {"ThicknessZero", 5, "thickness = 0", 5, "sheet.thickness", "found 0 mm"},
    {"ThicknessNegative", 5, "thickness = -0.8", 5, "sheet.thickness", "found -0.8 mm"},
    {"ThicknessNotANumber", 5, "thickness = nan", 5, "sheet.thickness", "0.1 mm to 6 mm"},
    {"ThicknessInfinite", 5, "thickness = inf", 5, "sheet.thickness", "0.1 mm to 6 mm"},
    {"ThicknessHuge", 5, "thickness = 1e400", 5, "thickness", "do:"},
    {"ThicknessInAWrongUnit", 5, "thickness = \"0.8 kg\"", 5, "sheet.thickness", "in or thou"},
    {"ThicknessWithAComma", 5, "thickness = \"0,8 mm\"", 5, "sheet.thickness", "not a comma"},
    {"ThicknessDividedByZero", 5, "thickness = \"1/0 in\"", 5, "sheet.thickness", "1/0 in"},
    {"GaugeUnknown", 5, "thickness = \"21 gauge\"", 5, "sheet.thickness", "20, 18"},
    {"ThicknessIsAList", 5, "thickness = [0.8]", 5, "sheet.thickness", "found a list"},
    {"ThicknessIsTrue", 5, "thickness = true", 5, "sheet.thickness", "found true"},
    {"ThicknessIsADate", 5, "thickness = 2024-01-01", 5, "sheet.thickness", "a date"},
    {"RollingDirectionTooLarge",
     6,
     "rolling_direction = 200",
     6,
     "sheet.rolling_direction",
     "180 deg"},
    {"AngleInQuotes",
     6,
     "rolling_direction = \"30\"",
     6,
     "sheet.rolling_direction",
     "without quotes"},
    {"CurveUnknown", 8, "curve = \"concav\"", 8, "bend_line.curve", "write \"concave\""},
    {"RoundKinksOfAnArc",
     10,
     "sweep = 20\nround_kinks = 5",
     11,
     "bend_line.round_kinks",
     "no round_kinks on a bend line that has no kinks"},
    {"RadiusMissing", 9, "", 7, "bend_line.radius", "found nothing"},
    {"RadiusTwice", 9, "radius = 200\nwall_radius = 197", 10, "bend_line.wall_radius", "both"},
    {"RadiusTooSmallForTheFlange", 9, "radius = 20", 13, "blank.flange_depth", "radius 20 mm"},
    {"RadiusLeavesNoRoomForTheDrive",
     24,
     "corner_radius = 198",
     9,
     "bend_line.radius",
     "fit inside"},
    {"RadiusAsGoodAsStraight", 9, "radius = 20000", 9, "bend_line.radius", "straight"},
    {"SweepZero", 10, "sweep = 0", 10, "bend_line.sweep", "0.5 deg to 180 deg"},
    {"SweepFullCircle", 10, "sweep = 360", 10, "bend_line.sweep", "slice"},
    {"LengthOnAnArc", 10, "sweep = 20\nlength = 70", 11, "bend_line.length", "delete length"},
    {"WebWidthZero", 12, "web_width = 0", 12, "blank.web_width", "2 mm to 1000 mm"},
    {"WebTooNarrowToHold", 12, "web_width = 3", 12, "blank.web_width", "at least 4 mm"},
    {"FlangeDepthMissing", 13, "", 11, "blank.flange_depth", "found nothing"},
    {"FlangeGivenTwice", 13, "flange_depth = 18\nflat_width = 20", 14, "blank.flat_width", "both"},
    {"FlangeDeeperThanTheRadius", 13, "flange_depth = 250", 13, "blank.flange_depth", "less than"},
    {"FlangeInsideTheBend", 13, "flange_depth = 4", 13, "blank.flange_depth", "at least 4.8 mm"},
    {"FlatWidthInsideTheBend", 13, "flat_width = 7", 13, "blank.flat_width", "at least"},
    {"FlatWidthBeyondTheRadius",
     13,
     "flat_width = 199",
     13,
     "blank.flat_width",
     "less than 198.4 mm"},
    {"TrimNegative", 14, "trim_allowance = -1", 14, "blank.trim_allowance", "0 mm to 50 mm"},
    {"EndUnknown", 15, "start = \"fre\"", 15, "blank.start", "write \"free\""},
    {"NoseRadiusZero", 18, "nose_radius = 0", 18, "block.nose_radius", "cuts the sheet"},
    {"NoseSharperThanAQuarterThickness",
     18,
     "nose_radius = 0.1",
     18,
     "block.nose_radius",
     "0.2 mm"},
    {"NoseRadiusMissing", 18, "", 17, "block.nose_radius", "found nothing"},
    {"WallFlat", 19, "wall_angle = 0", 19, "block.wall_angle", "5 deg to 150 deg"},
    {"WallFoldedBack", 19, "wall_angle = 180", 19, "block.wall_angle", "5 deg to 150 deg"},
    {"SetbackBeyondTheWeb",
     20,
     "backing_setback = 39",
     20,
     "block.backing_setback",
     "nothing holds"},
    {"FrictionTooHigh", 21, "friction = 0.9", 21, "block.friction", "resists sliding"},
    {"DriveUnknown", 23, "kind = \"hammer\"", 23, "drive.kind", "wiper or leaf"},
    {"CornerOnALeaf", 23, "kind = \"leaf\"", 24, "drive.corner_radius", "delete it"},
    {"ClearanceBelowTheThickness", 25, "clearance = 0.9", 25, "drive.clearance", "squeezes"},
    {"ClearanceAsALength", 25, "clearance = \"1 mm\"", 25, "drive.clearance", "a plain number"},
    {"OrderUnknown", 24, "order = \"inside out\"", 24, "drive.order", "ends first"},
    {"FrontOfAnEvenDrive", 24, "front = 40", 24, "drive.front", "driven evenly"},
    {"FrontTooShort",
     24,
     "order = \"from end\"\nfront = 2",
     25,
     "drive.front",
     "half the flange's flat width"},
    {"FrontZero", 24, "order = \"from end\"\nfront = 0", 25, "drive.front", "1 mm to 3000 mm"},
    {"PassesNotRising",
     24,
     "passes = [60, 30, 90]",
     24,
     "drive.passes",
     "each larger than the one before"},
    {"PassTwice", 24, "passes = [60, 60, 90]", 24, "drive.passes", "each larger"},
    {"NoPass", 24, "passes = []", 24, "drive.passes", "1 to 20 angles"},
    {"PassOfNoAngle", 24, "passes = [1, 90]", 24, "drive.passes[1]", "5 deg to 150 deg"},
    {"PassesStopShort", 24, "passes = [30, 60]", 24, "drive.passes", "a last pass to 90 deg"},
    {"PassesAreWords", 24, "passes = [\"half\"]", 24, "drive.passes[1]", "degrees"},
    {"AngleBeyondTheWall", 26, "angle = 95", 26, "drive.angle", "at most 90 deg"},
    {"ReleaseFirst", 28, "steps = [\"release\"]", 28, "run.steps", "nothing bent before"},
    {"NoSteps", 28, "steps = []", 28, "run.steps", "no step"},
    {"StepTwice", 28, "steps = [\"bend-down\", \"bend-down\"]", 28, "run.steps", "a step twice"},
    {"StepUnknown", 28, "steps = [\"bend\"]", 28, "run.steps", "\"bend\""},
    {"StepOnTheBlock", 28, "steps = [\"bend-down\", \"trim\"]", 28, "run.steps", "still on the"},
    {"ReleaseOfALoosePart",
     28,
     "steps = [\"bend-down\", \"release\", \"trim\", \"release\"]",
     28,
     "run.steps",
     "a release of a part that is not on the block"},
    {"TooManySteps",
     28,
     "steps = [\"bend-down\", \"release\", \"anneal\", \"anneal\", \"anneal\", \"anneal\", "
     "\"anneal\", \"anneal\", \"anneal\"]",
     28,
     "run.steps",
     "more than eight"},
    {"TemperNotNamed",
     28,
     "steps = [\"bend-down\", \"release\", \"heat-treat\"]",
     28,
     "run.steps",
     "add [heat_treat]"},
    {"HeatTreatedSheetUnknown",
     30,
     "close_from = 0.8\n[heat_treat]\nmaterial = \"2024-T99\"",
     32,
     "heat_treat.material",
     "2024-T4"},
    {"AnnealWithoutMaterial", 30, "close_from = 0.8\n[anneal]", 31, "anneal.material", "nothing"},
    {"StepsAsAWord", 28, "steps = \"bend-down\"", 28, "run.steps", "a list of words"},
    {"AccuracyUnknown", 29, "accuracy = \"perfect\"", 29, "run.accuracy", "quick, normal or fine"},
    {"CloseFromOne", 30, "close_from = 1", 30, "run.close_from", "0.2 to 0.99"},
    {"UnitWithoutQuotes", 5, "thickness = 0.8 mm", 5, "thickness", "write thickness = \"0.8 mm\""},
    {"NoEqualsSign", 5, "thickness 0.8", 5, "text", "thickness = \"0.8 mm\""},
    {"NoValue", 5, "thickness =", 5, "thickness", "after the equals sign"},
    {"QuoteNotClosed", 4, "material = \"2024-O", 4, "material", "close the quotes"},
    {"BracketNotClosed", 3, "[sheet", 3, "text", "close the bracket"},
    {"KeyTwice", 5, "thickness = 0.8\nthickness = 1", 6, "thickness", "delete one of the two"},
    {"SectionTwice", 17, "[blank]", 17, "text", "delete one of the two"},
    {"WordWithoutQuotes", 29, "accuracy = fine", 29, "accuracy", "put words in quotes"},
    {"NotUtf8", 1, "title = \"Tr\xE4ger\"", 1, "text", "save the file as UTF-8"},
    {"BinaryFile", 1, std::string("a\0b", 3), 1, "text", "0x00"},
};

INSTANTIATE_TEST_SUITE_P(
    Each,
    BadCaseFile,
    ::testing::ValuesIn(bad_cases),
    [](const ::testing::TestParamInfo<BadCase>& bad) { return bad.param.name; }
);

} // namespace
} // namespace flangewright::case_file
