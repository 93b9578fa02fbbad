// What the drawing allows of thinning, and the softer tempers a case brings along.
#include "io/case_file/case_file.hpp"
#include "tests/io/case_file/bad_lines.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/case_file/reading.hpp"

#include <gtest/gtest.h>

namespace flangewright::case_file {
namespace {

/// The good case (0.8 mm) with a line more in [sheet].
std::string with_sheet_line(const std::string& line) {
    return with_line(5, "thickness = 0.8\n" + line);
}

TEST(LeastThickness, IsAThicknessOrAShareOfThinning) {
    EXPECT_FALSE(read_well(good_case).sheet.least_thickness.has_value());
    const job::Job thick = read_well(with_sheet_line("least_thickness = \"0.028 in\""));
    EXPECT_NEAR(thick.sheet.least_thickness.value(), 0.7112, 1e-12);
    const job::Job thin = read_well(with_sheet_line("largest_thinning = \"10 %\""));
    EXPECT_NEAR(thin.sheet.least_thickness.value(), 0.72, 1e-12);
}

class BadLeastThickness : public ::testing::TestWithParam<BadLines> {};

TEST_P(BadLeastThickness, GivesOneErrorThatNamesLineAndKey) {
    expect_the_one_error(
        read_case_text(with_sheet_line(GetParam().lines), "case.toml"), GetParam()
    );
}

INSTANTIATE_TEST_SUITE_P(
    All,
    BadLeastThickness,
    ::testing::Values(
        BadLines{
            "Both",
            "least_thickness = 0.7\nlargest_thinning = \"10 %\"",
            7,
            "sheet.largest_thinning",
            {"both least_thickness and largest_thinning"}},
        BadLines{
            "AsThickAsTheSheet",
            "least_thickness = 0.8",
            6,
            "sheet.least_thickness",
            {"less than the sheet's thickness", "take a thicker sheet"}},
        BadLines{"NoUnitOfShare", "largest_thinning = 10", 6, "sheet.largest_thinning", {"10"}},
        BadLines{"Nothing", "least_thickness = 0", 6, "sheet.least_thickness", {"0.01 mm"}},
        BadLines{"AllOfIt", "largest_thinning = \"95 %\"", 6, "sheet.largest_thinning", {"90 %"}}
    ),
    [](const auto& trial) { return trial.param.name; }
);

TEST(SofterTempersOfACase, ComeWithASheetOutOfTheLibrary) {
    const job::Job hard = read_well(with_line(4, "material = \"6061-T6\""));
    ASSERT_EQ(hard.sheet.softer_tempers.size(), 2U);
    EXPECT_EQ(hard.sheet.softer_tempers.back().name, "6061-O");
    EXPECT_TRUE(read_well(good_case).sheet.softer_tempers.empty()); // soft already
}

TEST(SofterTempersOfACase, AreNoneForASheetWrittenOut) {
    const std::string written = with_line(4, "", good_case)
        + "[sheet.material]\nname = \"6061-T6\"\nyoungs_modulus = \"70 GPa\"\npoisson_ratio = "
          "0.33\n"
          "[sheet.material.hardening]\nlaw = \"swift\"\nstrength = \"500 MPa\"\nprestrain = 0.01\n"
          "exponent = 0.1\n";
    EXPECT_TRUE(read_well(written).sheet.softer_tempers.empty());
}

} // namespace
} // namespace flangewright::case_file
