#include "io/tensile/test_file.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::tensile {
namespace {

using ::testing::DoubleEq;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::StartsWith;

const StripSizes strip{.gauge_length = 50, .width = 12.5, .thickness = 0.8};

TestFile read(const std::string& text, const StripSizes& sizes = {}) {
    const auto file = test_from(text, "t.csv", sizes);
    EXPECT_TRUE(file.has_value()) << (file ? "" : key_file::line_for(file.error()));
    return file.value_or(TestFile{});
}

std::string problem_of(const std::string& text, const StripSizes& sizes = {}) {
    const auto file = test_from(text, "t.csv", sizes);
    return file ? "no problem" : key_file::line_for(file.error());
}

TEST(TestFile, ReadsStrainAndStress) {
    const TestFile file = read("strain,stress_MPa\n0.001,70\n0.002,90\n");
    EXPECT_THAT(file.test.strain, ElementsAre(0.001, 0.002));
    EXPECT_THAT(file.test.stress, ElementsAre(70, 90));
    EXPECT_TRUE(file.test.width_strain.empty());
    EXPECT_THAT(file.lines, ElementsAre(2, 3));
}

TEST(TestFile, ReadsOtherUnitsAndLettersOfEitherCase) {
    const TestFile file = read("time_s;Stress_KSI;Strain_Percent\n0;10;0.2\n");
    EXPECT_THAT(file.test.strain, ElementsAre(DoubleEq(0.002)));
    EXPECT_THAT(file.test.stress, ElementsAre(DoubleEq(68.94757)));
    EXPECT_THAT(file.ignored, ElementsAre("time_s"));
}

// By hand: 0.5 mm over 50 mm; 1 kN over 12.5 x 0.8 mm2; 1 lbf is 4.448222 N; 1 in is 25.4 mm.
TEST(TestFile, TurnsExtensionAndLoadIntoStrainAndStress) {
    const TestFile metric = read("extension_mm,load_kN\n0.5,1\n", strip);
    EXPECT_THAT(metric.test.strain, ElementsAre(DoubleEq(0.01)));
    EXPECT_THAT(metric.test.stress, ElementsAre(DoubleEq(100)));
    const TestFile inches = read("extension_in,load_lbf\n0.1,100\n", strip);
    EXPECT_THAT(inches.test.strain, ElementsAre(DoubleEq(0.0508)));
    EXPECT_THAT(inches.test.stress, ElementsAre(DoubleEq(44.48222)));
    EXPECT_DOUBLE_EQ(read("strain,load_N\n0.01,100\n", strip).test.stress.front(), 10);
}

TEST(TestFile, ReadsTheWidth) {
    const std::string head = "strain,stress_MPa,";
    EXPECT_THAT(read(head + "width_strain\n0.1,90,-0.04\n").test.width_strain, ElementsAre(-0.04));
    EXPECT_THAT(
        read(head + "width_strain_percent\n0.1,90,-4\n").test.width_strain, ElementsAre(-0.04)
    );
    EXPECT_THAT(
        read(head + "width_mm\n0,0,12.5\n0.1,90,12\n").test.width_strain,
        ElementsAre(0, DoubleEq(12 / 12.5 - 1))
    );
    EXPECT_THAT(
        read(head + "width_mm\n0.1,90,12\n", strip).test.width_strain,
        ElementsAre(DoubleEq(12 / 12.5 - 1))
    );
}

TEST(TestFile, AsksForTheSizesItNeeds) {
    EXPECT_THAT(
        problem_of("extension_mm,stress_MPa\n1,2\n"), StartsWith("command line: --gauge-length: ")
    );
    EXPECT_THAT(problem_of("strain,load_N\n1,2\n"), StartsWith("command line: --width: "));
    EXPECT_THAT(
        problem_of("strain,load_N\n1,2\n", {.width = 12}), StartsWith("command line: --thickness: ")
    );
}

TEST(TestFile, RefusesColumnsWithoutUnits) {
    EXPECT_THAT(
        problem_of("# strip 3\nstrain,stress\n1,2\n"),
        StartsWith("t.csv:2: stress: found no unit, allowed stress_MPa, stress_ksi, load_N")
    );
    EXPECT_THAT(
        problem_of("Extension,load_N\n1,2\n"), StartsWith("t.csv:1: Extension: found no unit")
    );
    EXPECT_THAT(
        problem_of("strain,Load (kN)\n1,2\n"), StartsWith("t.csv:1: Load (kN): found no unit")
    );
    EXPECT_THAT(
        problem_of("strain,stress_MPa,width\n1,2,3\n"), StartsWith("t.csv:1: width: found no unit")
    );
}

TEST(TestFile, NamesAColumnThatIsMissing) {
    EXPECT_THAT(
        problem_of("time,stress_MPa\n1,2\n"), StartsWith("t.csv:1: strain: found no such column")
    );
    EXPECT_THAT(problem_of("strain\n1\n"), StartsWith("t.csv:1: stress: found no such column"));
}

TEST(TestFile, TellsWhatIsNoText) {
    EXPECT_THAT(problem_of(std::string("strain,\xFF\n")), HasSubstr("t.csv:1"));
    const auto missing = read_test_file("/nowhere/strip.csv", {});
    ASSERT_FALSE(missing.has_value());
    EXPECT_THAT(key_file::line_for(missing.error()), HasSubstr("a tensile test"));
}

} // namespace
} // namespace flangewright::tensile
