// Depth and wall angle that vary along the bend line: what is read, and what is refused.
#include "io/case_file/case_file.hpp"
#include "tests/io/case_file/case_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numbers>

namespace flangewright::case_file {
namespace {

constexpr double degree = std::numbers::pi / 180;

// The good case (an arc 69.8 mm long) with other lines for flange, wall and drive; each replaces
// one line, so that those after it keep their numbers.
struct Lines {
    std::string flange = "flange_depth = 18";
    std::string wall = "wall_angle = 90";
    std::string drive = "kind = \"wiper\"";
    std::string corner = "corner_radius = 3";
    std::string angle = "angle = 90";
    std::string steps = "steps = [\"bend-down\", \"release\"]";
};

std::string case_with(const Lines& lines) {
    std::string text = with_line(13, lines.flange);
    text = with_line(19, lines.wall, text);
    text = with_line(23, lines.drive, text);
    text = with_line(24, lines.corner, text);
    text = with_line(26, lines.angle, text);
    return with_line(28, lines.steps, text);
}

Lines with_leaf(const std::string& wall) {
    Lines lines;
    lines.wall = wall;
    lines.drive = "kind = \"leaf\"";
    lines.corner = "";
    lines.angle = "";
    return lines;
}

job::Job job_of(const Lines& lines) {
    const CaseFileResult result = read_case_text(case_with(lines), "case.toml");
    EXPECT_TRUE(result) << (result ? "" : line_for(result.error().front()));
    return result ? result->job : job::Job{};
}

TEST(AlongTheLine, DepthsAreDevelopedEachToItsFlatWidth) {
    const job::Job job = job_of({.flange = "flange_depth = [[0, 18], [\"40 mm\", 18], [60, 12]]"});
    const job::Job deep = job_of({.flange = "flange_depth = 18"});
    const job::Job shallow = job_of({.flange = "flange_depth = 12"});
    EXPECT_EQ(job.blank.flange_depth, 18);
    EXPECT_EQ(job.blank.flange_width, deep.blank.flange_width);
    EXPECT_EQ(job.blank.flange_width_at(20), deep.blank.flange_width);
    EXPECT_EQ(job.blank.flange_width_at(60), shallow.blank.flange_width);
    EXPECT_EQ(job.blank.flange_width_at(69), shallow.blank.flange_width);
    EXPECT_DOUBLE_EQ(
        job.blank.flange_width_at(50), 0.5 * (deep.blank.flange_width + shallow.blank.flange_width)
    );
}

TEST(AlongTheLine, FlatWidthsAreTakenAsTheyAre) {
    const job::Job job = job_of({.flange = "flat_width = [[0, 20], [60, 16]]"});
    EXPECT_EQ(job.blank.flange_width, 20);
    EXPECT_EQ(job.blank.flange_width_at(60), 16);
    EXPECT_DOUBLE_EQ(job.blank.flange_width_at(30), 18);
}

TEST(AlongTheLine, WallAnglesAreInDegreesAndTheLeafFollowsThem) {
    const job::Job job = job_of(with_leaf("wall_angle = [[10, 80], [60, 90]]"));
    EXPECT_DOUBLE_EQ(job.block.wall_angle, 90 * degree);
    EXPECT_DOUBLE_EQ(job.block.wall_angle_at(0), 80 * degree);
    EXPECT_NEAR(job.block.wall_angle_at(35), 85 * degree, 1e-12);
    EXPECT_DOUBLE_EQ(job.drive.angle, 90 * degree);
    // The same depth takes another flat width on another wall.
    EXPECT_FALSE(job.blank.flange_widths.is_empty());
    EXPECT_EQ(
        job.blank.flange_width_at(0), job_of(with_leaf("wall_angle = 80")).blank.flange_width
    );
}

TEST(AlongTheLine, AWiperTakesAWallThatIsUndercutHereAndSquareThere) {
    const job::Job job = job_of({.wall = "wall_angle = [[0, 90], [60, 100]]"});
    EXPECT_DOUBLE_EQ(job.block.wall_angle, 100 * degree);
    EXPECT_DOUBLE_EQ(job.drive.angle, 90 * degree);
}

// To the bit: no profile, so nothing of it in mesh or run.
TEST(AlongTheLine, ATableOfOneValueIsThatValue) {
    const job::Job plain = job_of({});
    const job::Job job =
        job_of({.flange = "flange_depth = [[0, 18], [60, 18]]", .wall = "wall_angle = [[0, 90]]"});
    EXPECT_TRUE(job.blank.flange_widths.is_empty());
    EXPECT_TRUE(job.block.wall_angles.is_empty());
    EXPECT_EQ(job.blank.flange_width, plain.blank.flange_width);
    EXPECT_EQ(job.blank.flange_depth, plain.blank.flange_depth);
    EXPECT_EQ(job.block.wall_angle, plain.block.wall_angle);
}

struct BadTable {
    std::string name;
    Lines lines;
    int line = 0;
    std::string key;
    std::string says;
};

class BadTableOfStations : public ::testing::TestWithParam<BadTable> {};

TEST_P(BadTableOfStations, IsOneProblemWithLineAndKey) {
    const BadTable& bad = GetParam();
    const auto result = read_case_text(case_with(bad.lines), "case.toml");
    ASSERT_FALSE(result.has_value());
    const InputProblem& problem = result.error().front();
    EXPECT_EQ(problem.line, bad.line) << line_for(problem);
    EXPECT_EQ(problem.key, bad.key) << line_for(problem);
    EXPECT_THAT(line_for(problem), ::testing::HasSubstr(bad.says));
    EXPECT_FALSE(problem.remedy.empty());
    EXPECT_EQ(result.error().size(), 1U) << line_for(result.error().back());
}

Lines flange(const std::string& text) {
    return {.flange = text};
}

Lines leaf_with(const std::string& wall, const std::string& more) {
    Lines lines = with_leaf(wall);
    lines.corner = more;
    return lines;
}

const std::vector<BadTable> bad_tables{
    {"Empty", flange("flange_depth = []"), 13, "blank.flange_depth", "0 pairs"},
    {"NotPairs", flange("flange_depth = [0, 18]"), 13, "blank.flange_depth[1]", "both values"},
    {"OneValueOfAPair", flange("flange_depth = [[0]]"), 13, "blank.flange_depth[1]", "both values"},
    {"DepthNegative",
     flange("flange_depth = [[0, 18], [60, -1]]"),
     13,
     "blank.flange_depth[2]",
     "1 mm to 300 mm"},
    {"StationNegative",
     flange("flange_depth = [[-1, 18], [60, 12]]"),
     13,
     "blank.flange_depth[1]",
     "along the bend line from its start"},
    {"StationInAWrongUnit",
     flange("flange_depth = [[\"1 kg\", 18], [60, 12]]"),
     13,
     "blank.flange_depth[1]",
     "kg"},
    {"StationsFall",
     flange("flange_depth = [[0, 18], [60, 12], [50, 14]]"),
     13,
     "blank.flange_depth",
     "pair 3"},
    {"AStep", flange("flange_depth = [[0, 18], [0, 12]]"), 13, "blank.flange_depth", "pair 2"},
    {"StationPastTheEnd",
     flange("flange_depth = [[0, 18], [90, 12]]"),
     13,
     "blank.flange_depth",
     "a station at 90 mm"},
    {"TooSteep",
     flange("flange_depth = [[20, 18], [24, 12]]"),
     13,
     "blank.flange_depth",
     "at most 45 deg"},
    {"EndsWithinTheBend",
     flange("flange_depth = [[0, 18], [60, 4]]"),
     13,
     "blank.flange_depth",
     "narrowest"},
    {"FlatWidthWithinTheBend",
     flange("flat_width = [[0, 18], [60, 8]]"),
     13,
     "blank.flat_width",
     "narrowest"},
    {"DeeperThanTheRadius",
     flange("flange_depth = [[0, 20], [69, 250]]"),
     13,
     "blank.flange_depth",
     "less than"},
    {"WallFlatSomewhere",
     leaf_with("wall_angle = [[0, 90], [60, 0]]", ""),
     19,
     "block.wall_angle[2]",
     "5 deg to 150 deg"},
    {"WallTurnsTooFast",
     leaf_with("wall_angle = [[0, 90], [10, 60]]", ""),
     19,
     "block.wall_angle",
     "deg per mm"},
    {"WallPastTheEnd",
     leaf_with("wall_angle = [[0, 90], [100, 85]]", ""),
     19,
     "block.wall_angle",
     "a station at 100 mm"},
    {"WiperOnASlopeSomewhere",
     {.wall = "wall_angle = [[0, 90], [60, 85]]"},
     23,
     "drive.kind",
     "a wall of 85 deg"},
    {"AngleOfAFollowingLeaf",
     leaf_with("wall_angle = [[0, 90], [60, 85]]", "angle = 80"),
     24,
     "drive.angle",
     "goes to the wall at every station"},
    {"PassesOfAFollowingLeaf",
     leaf_with("wall_angle = [[0, 90], [60, 85]]", "passes = [40, 90]"),
     24,
     "drive.passes",
     "delete passes"},
    {"OrderOfAFollowingLeaf",
     leaf_with("wall_angle = [[0, 90], [60, 85]]", "order = \"ends first\""),
     24,
     "drive.order",
     "all along at once"},
};

INSTANTIATE_TEST_SUITE_P(
    Each,
    BadTableOfStations,
    ::testing::ValuesIn(bad_tables),
    [](const ::testing::TestParamInfo<BadTable>& bad) { return bad.param.name; }
);

// Flange and lip are made for one section.
TEST(AlongTheLine, NothingVariesBesideALip) {
    const std::string lip = "\n[return_bend]\nside = \"under the web\"\nlip_depth = 8\n"
                            "nose_radius = 2.4\n";
    const std::string steps = "steps = [\"bend-down\", \"release\", \"return-bend\", \"release\"]";
    const auto problems_of = [&](const Lines& lines) {
        const auto result = read_case_text(case_with(lines) + lip, "case.toml");
        return result ? std::vector<InputProblem>{} : result.error();
    };
    const auto depth =
        problems_of({.flange = "flange_depth = [[0, 18], [60, 16]]", .steps = steps});
    ASSERT_EQ(depth.size(), 1U);
    EXPECT_EQ(depth.front().key, "blank.flange_depth");
    const auto wall = problems_of({.wall = "wall_angle = [[0, 90], [60, 95]]", .steps = steps});
    ASSERT_EQ(wall.size(), 1U);
    EXPECT_EQ(wall.front().key, "block.wall_angle");
    EXPECT_TRUE(problems_of({.steps = steps}).empty());
}

TEST(AlongTheLine, AWallRadiusNeedsOneWallBelowSquare) {
    const auto with_wall_radius = [](const Lines& lines) {
        return read_case_text(with_line(9, "wall_radius = 197", case_with(lines)), "case.toml");
    };
    const auto slope = with_wall_radius(with_leaf("wall_angle = [[0, 80], [60, 90]]"));
    ASSERT_FALSE(slope.has_value());
    ASSERT_EQ(slope.error().size(), 1U);
    EXPECT_EQ(slope.error().front().key, "bend_line.wall_radius");
    EXPECT_TRUE(with_wall_radius({.wall = "wall_angle = [[0, 90], [60, 100]]"}).has_value());
}

} // namespace
} // namespace flangewright::case_file
