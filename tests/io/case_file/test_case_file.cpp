#include "io/case_file/case_file.hpp"
#include "io/units/angle.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/case_file/reading.hpp"
#include "tests/support/trial_folder.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

namespace flangewright::case_file {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

TEST(CaseFile, GivesTheJobItSays) {
    const job::Job job = read_well(good_case);
    EXPECT_EQ(job.title, "Bracket");
    EXPECT_EQ(job.sheet.material.name, "2024-O");
    EXPECT_DOUBLE_EQ(job.sheet.thickness, 0.8);
    EXPECT_DOUBLE_EQ(job.sheet.rolling_direction, units::radians(30));
    EXPECT_EQ(job.blank.line.curve(), outline::Curve::concave);
    EXPECT_DOUBLE_EQ(job.blank.line.radius(), 200);
    EXPECT_DOUBLE_EQ(job.blank.line.sweep(), units::radians(20));
    EXPECT_DOUBLE_EQ(job.blank.web_width, 40);
    EXPECT_DOUBLE_EQ(job.blank.flange_depth, 18);
    EXPECT_DOUBLE_EQ(job.blank.trim_allowance, 3);
    EXPECT_EQ(job.blank.start, job::EndKind::free);
    EXPECT_EQ(job.blank.end, job::EndKind::continues);
    EXPECT_DOUBLE_EQ(job.block.nose_radius, 2.4);
    EXPECT_DOUBLE_EQ(job.block.wall_angle, units::radians(90));
    EXPECT_DOUBLE_EQ(job.block.backing_setback, 1);
    EXPECT_EQ(job.drive.kind, job::DriveKind::wiper);
    EXPECT_DOUBLE_EQ(job.drive.corner_radius, 3);
    EXPECT_DOUBLE_EQ(job.drive.clearance, 1.05);
    EXPECT_DOUBLE_EQ(job.drive.angle, units::radians(90));
    EXPECT_THAT(job.steps, ElementsAre(job::StepKind::bend_down, job::StepKind::release));
    EXPECT_EQ(job.accuracy, job::Accuracy::normal);
    EXPECT_DOUBLE_EQ(job.close_share, 0.8);
}

// By hand: bend allowance pi/2 * 2.8 = 4.398, straight part 18 - 3.2 = 14.8, trim 3: 22.2 mm flat
// on a straight line; a stretch flange narrows, so the blank must be a little wider.
TEST(CaseFile, DevelopsTheFlatWidthFromTheFlangeDepth) {
    const double straight = 4.398 + 14.8 + 3;
    const double width = read_well(good_case).blank.flange_width;
    EXPECT_GT(width, straight);
    EXPECT_LT(width, straight + 1);
}

TEST(CaseFile, TakesTheFlatWidthAsItIsCut) {
    const job::Job job = read_well(with_line(13, "flat_width = \"1 in\""));
    EXPECT_DOUBLE_EQ(job.blank.flange_width, 25.4);
    EXPECT_DOUBLE_EQ(job.blank.flange_depth, 0);
}

TEST(CaseFile, ConvertsInchesOnce) {
    const std::string text = with_line(
        2, "unit = \"in\"", with_line(5, "thickness = 0.032", with_line(9, "radius = \"7 7/8\""))
    );
    std::string inches = with_line(12, "web_width = \"40 mm\"", text);
    inches = with_line(
        13, "flange_depth = \"3/4\"", with_line(14, "trim_allowance = \"1/8 in\"", inches)
    );
    inches =
        with_line(18, "nose_radius = \"3/32\"", with_line(20, "backing_setback = 0.04", inches));
    inches = with_line(24, "corner_radius = \"125 thou\"", inches);
    const auto result = read_case_text(inches, "case.toml");
    ASSERT_TRUE(result.has_value()) << line_for(result.error().front());
    EXPECT_EQ(result->unit, units::LengthUnit::inch);
    EXPECT_DOUBLE_EQ(result->job.sheet.thickness, 0.8128);
    EXPECT_DOUBLE_EQ(result->job.blank.line.radius(), 200.025);
    EXPECT_DOUBLE_EQ(result->job.blank.web_width, 40);
    EXPECT_DOUBLE_EQ(result->job.blank.flange_depth, 19.05);
    EXPECT_DOUBLE_EQ(result->job.blank.trim_allowance, 3.175);
    EXPECT_DOUBLE_EQ(result->job.block.nose_radius, 2.38125);
    EXPECT_DOUBLE_EQ(result->job.drive.corner_radius, 3.175);
}

TEST(CaseFile, LeavesDefaultsWhereNothingIsSaid) {
    const job::Job job = read_well(R"(
title = "Short"
[sheet]
material = "6061 o"
thickness = "2 mm"
[bend_line]
curve = "straight"
length = 100
[blank]
web_width = 40
flat_width = 25
[block]
nose_radius = 4
[drive]
kind = "wiper"
)");
    EXPECT_EQ(job.sheet.material.name, "6061-O");
    EXPECT_DOUBLE_EQ(job.block.wall_angle, units::radians(90));
    EXPECT_DOUBLE_EQ(job.block.backing_setback, 0);
    EXPECT_DOUBLE_EQ(job.block.friction, 0);
    EXPECT_DOUBLE_EQ(job.drive.clearance, 1.05);
    EXPECT_DOUBLE_EQ(job.drive.corner_radius, 4); // 2 t, above 3 mm
    EXPECT_DOUBLE_EQ(job.drive.angle, units::radians(90));
    EXPECT_EQ(job.steps.size(), 2U);
    EXPECT_EQ(job.blank.start, job::EndKind::free);
}

TEST(CaseFile, DrivesALeafToTheWallAndAWiperNoFurtherThanSquare) {
    const std::string undercut = with_line(19, "wall_angle = 92", with_line(26, ""));
    EXPECT_DOUBLE_EQ(read_well(undercut).drive.angle, units::radians(90));
    const std::string leaf = with_line(23, "kind = \"leaf\"", with_line(24, "", undercut));
    EXPECT_DOUBLE_EQ(read_well(leaf).drive.angle, units::radians(92));
}

TEST(CaseFile, DrivesEvenlyInOnePassUnlessTold) {
    const job::Job even = read_well(good_case);
    EXPECT_EQ(even.drive.order, job::DriveOrder::evenly);
    EXPECT_TRUE(even.drive.passes.empty());
    EXPECT_EQ(even.drive.front, 0);
    const job::Job worked =
        read_well(with_line(25, "order = \"Ends first\"\npasses = [30, 60, 90]\nfront = 50"));
    EXPECT_EQ(worked.drive.order, job::DriveOrder::ends_first);
    ASSERT_EQ(worked.drive.passes.size(), 3U);
    EXPECT_DOUBLE_EQ(worked.drive.passes[1], units::radians(60));
    EXPECT_DOUBLE_EQ(worked.drive.front, 50);
    const job::Job from_start = read_well(with_line(25, "order = \"from start\"\npasses = 90"));
    EXPECT_EQ(from_start.drive.order, job::DriveOrder::from_start);
    EXPECT_DOUBLE_EQ(from_start.drive.front, 2 * from_start.blank.flange_width);
    EXPECT_EQ(
        read_well(with_line(25, "order = \"from end\"")).drive.order, job::DriveOrder::from_end
    );
}

// The last pass goes where the drive does, whether or not the angle is written.
TEST(CaseFile, LetsThePassesEndAtTheAngle) {
    EXPECT_EQ(read_well(with_line(26, "passes = [45, 90]")).drive.passes.size(), 2U);
    EXPECT_EQ(read_well(with_line(26, "angle = 80\npasses = [45, 80]")).drive.passes.size(), 2U);
    const auto result = read_case_text(with_line(26, "angle = 80\npasses = [45, 90]"), "c.toml");
    ASSERT_FALSE(result.has_value());
    EXPECT_EQ(
        line_for(result.error().front()),
        "c.toml:27: drive.passes: found a last pass to 90 deg, allowed a last pass to 80 deg, the "
        "angle the flange is driven to, do: let the passes end with angle, or leave angle out"
    );
}

TEST(CaseFile, TakesTheRadiusOfTheBlocksOutline) {
    const job::Job concave = read_well(with_line(9, "wall_radius = 197.6"));
    EXPECT_DOUBLE_EQ(concave.blank.line.radius(), 200);
    const job::Job convex =
        read_well(with_line(8, "curve = \"convex\"", with_line(9, "wall_radius = 202.4")));
    EXPECT_DOUBLE_EQ(convex.blank.line.radius(), 200);
    EXPECT_EQ(convex.blank.line.curve(), outline::Curve::convex);
}

TEST(CaseFile, TakesTheNoseEndOfASlopingWall) {
    const std::string sloping = with_line(
        19,
        "wall_angle = 30",
        with_line(23, "kind = \"leaf\"", with_line(24, "", with_line(26, "")))
    );
    const job::Job job = read_well(with_line(9, "wall_radius = 198.8", sloping)); // 2.4 sin 30
    EXPECT_NEAR(job.blank.line.radius(), 200, 1e-9);
}

TEST(CaseFile, TellsAllProblemsFromTheTopDown) {
    const std::string text = with_line(
        5, "thikness = 0.8", with_line(18, "nose_radius = 0", with_line(26, "angle = \"90\""))
    );
    EXPECT_THAT(
        lines_of(read_case_text(text, "c.toml")),
        ElementsAre(
            HasSubstr("c.toml:3: sheet.thickness: found nothing"),
            HasSubstr("c.toml:5: sheet.thikness: found an unknown key"),
            HasSubstr("c.toml:18: block.nose_radius: found 0 mm"),
            HasSubstr("c.toml:26: drive.angle: found \"90\"")
        )
    );
}

TEST(CaseFile, WordsAreTheseToTheLetter) {
    EXPECT_THAT(
        lines_of(read_case_text(with_line(5, "thickness = \"2 m\""), "case.toml")),
        ElementsAre(
            "case.toml:5: sheet.thickness: found \"2 m\", allowed 0.1 mm to 6 mm (thinner is "
            "foil, thicker is plate and bends by other rules), do: check the unit of the "
            "thickness"
        )
    );
    EXPECT_THAT(
        lines_of(read_case_text(with_line(20, "web_width = 3"), "case.toml")),
        ElementsAre("case.toml:20: block.web_width: found an unknown key, allowed nose_radius, "
                    "wall_angle, backing_setback or friction, do: move it to [blank]")
    );
    EXPECT_THAT(
        lines_of(read_case_text(with_line(5, "thickness = 0.8 mm"), "case.toml")),
        ElementsAre("case.toml:5: thickness: found \"thickness = 0.8 mm\", allowed a value with a "
                    "unit in quotes, do: write thickness = \"0.8 mm\"")
    );
    EXPECT_THAT(
        lines_of(read_case_file("/no/such/case.toml")),
        ElementsAre("/no/such/case.toml: file: found nothing there, allowed a case file, do: check "
                    "the path and the spelling")
    );
}

TEST(CaseFile, AsksForASectionThatIsMissing) {
    EXPECT_THAT(
        lines_of(read_case_text("title = \"Empty\"\n", "case.toml")),
        ElementsAre(
            HasSubstr("sheet: found nothing"),
            HasSubstr("bend_line: found nothing"),
            HasSubstr("blank: found nothing"),
            HasSubstr("block: found nothing"),
            HasSubstr("drive: found nothing")
        )
    );
}

TEST(CaseFile, RefusesAWiperOnASlopingWall) {
    const std::string text = with_line(19, "wall_angle = 60", with_line(26, ""));
    EXPECT_THAT(
        lines_of(read_case_text(text, "case.toml")),
        ElementsAre(HasSubstr("case.toml:23: drive.kind: found a wiper on a wall of 60 deg"))
    );
}

TEST(CaseFile, TakesAGaugeOfAluminiumButNotOfSteel) {
    const std::string text = with_line(5, "thickness = \"20 gauge\"");
    EXPECT_DOUBLE_EQ(read_well(text).sheet.thickness, 0.8128);
    EXPECT_THAT(
        lines_of(read_case_text(with_line(4, "material = \"4130 normalized\"", text), "case.toml")),
        ElementsAre(HasSubstr("case.toml:5: sheet.thickness: found \"20 gauge\""))
    );
}

TEST(CaseFile, RefusesALineShorterThanFourThicknesses) {
    const std::string text = with_line(10, "sweep = 0.5");
    EXPECT_THAT(
        lines_of(read_case_text(text, "case.toml")),
        ElementsAre(HasSubstr("case.toml:10: bend_line.sweep: found a bend line 1.745 mm long"))
    );
}

TEST(CaseFile, RefusesAConvexWebBeyondTheCentre) {
    const std::string text = with_line(8, "curve = \"convex\"", with_line(12, "web_width = 199"));
    EXPECT_THAT(
        lines_of(read_case_text(text, "case.toml")),
        ElementsAre(HasSubstr("case.toml:12: blank.web_width: found 199"))
    );
}

TEST(CaseFile, RefusesAStressWithoutUnitInAnInchFile) {
    const std::string text = with_line(
        4,
        "material.youngs_modulus = 10600\nmaterial.poisson_ratio = 0.33\n"
        "material.hardening = { law = \"voce\", yield_stress = \"11 ksi\", "
        "saturation_stress = \"30 ksi\", rate = 16 }",
        with_line(2, "unit = \"in\"")
    );
    const auto result = read_case_text(text, "case.toml");
    ASSERT_FALSE(result.has_value());
    const std::vector<std::string> lines = lines_of(result);
    EXPECT_THAT(
        lines,
        ::testing::Contains(HasSubstr("case.toml:4: sheet.material.youngs_modulus: found 10600"))
    );
}

class CaseFileOnDisk : public ::testing::Test {
protected:
    std::filesystem::path write(const std::string& text) {
        const std::filesystem::path path = folder_ / "case.toml";
        std::ofstream(path) << text;
        return path;
    }
    support::TrialFolder trial_;
    std::filesystem::path folder_ = trial_.path();
};

TEST_F(CaseFileOnDisk, IsReadFromItsPath) {
    EXPECT_TRUE(read_case_file(write(good_case)).has_value());
}

TEST_F(CaseFileOnDisk, RefusesAFolder) {
    EXPECT_THAT(lines_of(read_case_file(folder_)), ElementsAre(HasSubstr("file: found a folder")));
}

TEST_F(CaseFileOnDisk, RefusesAFileThatIsTooLarge) {
    const std::string comment(1'100'000, '#');
    EXPECT_THAT(
        lines_of(read_case_file(write(comment))), ElementsAre(HasSubstr("file: found 1.1 MB"))
    );
}

TEST_F(CaseFileOnDisk, RefusesADevice) {
    EXPECT_THAT(
        lines_of(read_case_file("/dev/zero")),
        ElementsAre(HasSubstr("something that can't be read"))
    );
}

TEST_F(CaseFileOnDisk, AsksForTheTitleOfAnEmptyFile) {
    EXPECT_THAT(
        lines_of(read_case_file(write(""))),
        ::testing::Contains(HasSubstr(":1: title: found nothing"))
    );
}

TEST(CaseFile, EveryCaseOfTheRepositoryIsGood) {
    int n_cases = 0;
    const std::filesystem::path folder = std::filesystem::path(FLANGEWRIGHT_SOURCE_DIR) / "cases";
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        if (entry.path().filename() == "case.toml") {
            ++n_cases;
            EXPECT_THAT(lines_of(read_case_file(entry.path())), ElementsAre());
        }
    }
    EXPECT_GE(n_cases, 3);
}

const std::string all_steps =
    "steps = [\"bend-down\", \"release\", \"trim\", \"anneal\", \"heat-treat\"]";

TEST(CaseFile, HeatedSheetIsNamedOrTheSoftOneAsBought) {
    const std::string text = with_line(28, all_steps) + "[heat_treat]\nmaterial = \"2024-T4\"\n";
    const auto result = read_case_text(text, "case.toml");
    ASSERT_TRUE(result.has_value());
    EXPECT_THAT(
        result->job.steps,
        ElementsAre(
            job::StepKind::bend_down,
            job::StepKind::release,
            job::StepKind::trim,
            job::StepKind::anneal,
            job::StepKind::heat_treat
        )
    );
    EXPECT_EQ(result->job.annealed.name, "2024-O");
    EXPECT_EQ(result->job.heat_treated.name, "2024-T4");
}

InputProblem first_problem(const std::string& text) {
    const auto result = read_case_text(text, "case.toml");
    EXPECT_FALSE(result.has_value());
    return result ? InputProblem{} : result.error().front();
}

TEST(CaseFile, AnnealOfHardSheetAsksWhatItBecomes) {
    const std::string hard = with_line(4, "material = \"2024-T3\"");
    const InputProblem problem =
        first_problem(with_line(28, "steps = [\"bend-down\", \"release\", \"anneal\"]", hard));
    EXPECT_EQ(problem.key, "run.steps");
    EXPECT_EQ(problem.found, "an anneal, and no word of what 2024-T3 is after it");
}

TEST(CaseFile, TrimNeedsAnAllowanceAndAFlangeThatStays) {
    const std::string trimmed = with_line(28, "steps = [\"bend-down\", \"release\", \"trim\"]");
    EXPECT_TRUE(read_case_text(trimmed, "case.toml").has_value());
    const InputProblem nothing = first_problem(with_line(14, "trim_allowance = 0", trimmed));
    EXPECT_EQ(nothing.key, "blank.trim_allowance");
    EXPECT_EQ(nothing.line, 14);
    // Driven to 30 deg only, the bend is short, but the mesh follows the whole nose.
    const std::string shallow = with_line(26, "angle = 30", trimmed);
    const InputProblem within = first_problem(with_line(13, "flange_depth = 4.5", shallow));
    EXPECT_EQ(within.key, "blank.trim_allowance");
}

} // namespace
} // namespace flangewright::case_file
