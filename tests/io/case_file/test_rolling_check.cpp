// The rolling direction of a rolled sheet where the part continues.
#include "tests/io/case_file/bad_lines.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/case_file/reading.hpp"

#include <gtest/gtest.h>

namespace flangewright::case_file {
namespace {

// The good case: an arc of 20 degrees of which the far end is the middle of the part.
std::string rolled(
    const std::string& direction,
    const std::string& end = "continues",
    const std::string& r_values = "r0 = 0.65, r45 = 0.83, r90 = 0.6"
) {
    const std::string directed = with_line(6, "rolling_direction = " + direction);
    const std::string ended = with_line(16, "end = \"" + end + "\"", directed);
    return with_line(
        4,
        "material.youngs_modulus = 70000\nmaterial.poisson_ratio = 0.33\n"
        "material.hardening = { law = \"swift\", strength = 330, prestrain = 0.0032, exponent = "
        "0.22 "
        "}\nmaterial.yield = { law = \"hill48\", "
            + r_values + " }",
        ended
    );
}

TEST(RollingCheck, RefusesASheetAskewToAPlaneOfSymmetry) {
    expect_the_one_error(
        read_case_text(rolled("30"), "c.toml"),
        {"Askew",
         "",
         9,
         "sheet.rolling_direction",
         {"a rolled sheet, 30 degrees askew where the part continues", "write 0 or 90"}}
    );
}

TEST(RollingCheck, TakesTheEndThatContinuesForTheMiddleOfThePart) {
    for (const char* direction : {"0", "90", "-90", "180", "0.5"}) {
        EXPECT_TRUE(read_case_text(rolled(direction), "c.toml").has_value()) << direction;
    }
}

TEST(RollingCheck, LeavesFreeEndsAndSheetsAlikeAllRoundAlone) {
    EXPECT_TRUE(read_case_text(rolled("30", "free"), "c.toml").has_value());
    const std::string alike = rolled("30", "continues", "r0 = 0.7, r45 = 0.7, r90 = 0.7");
    EXPECT_TRUE(read_case_text(alike, "c.toml").has_value());
}

// Both ends of an arc continue: it has turned by 20 degrees in between.
TEST(RollingCheck, RefusesAnArcThatContinuesAtBothEnds) {
    const std::string both = with_line(18, "start = \"continues\"", rolled("0"));
    expect_the_one_error(
        read_case_text(both, "c.toml"),
        {"Both", "", 9, "sheet.rolling_direction", {"10 degrees askew"}}
    );
}

} // namespace
} // namespace flangewright::case_file
