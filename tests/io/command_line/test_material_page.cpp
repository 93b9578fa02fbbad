#include "io/command_line/material_page.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::command_line {
namespace {

using ::testing::ContainsRegex;
using ::testing::HasSubstr;

std::string page_of(const char* name) {
    return material_page(*sheet_library::find_sheet(name));
}

TEST(MaterialPage, ShowsBothLawsWithTheirRange) {
    const std::string page = page_of("2024-O");
    EXPECT_THAT(
        page,
        ContainsRegex("voce \\(used\\) +yield_stress 76 MPa, saturation_stress 229 MPa, rate 16.6 +"
                      "plastic strain 0 to 0.145 +typical +derived")
    );
    EXPECT_THAT(
        page, ContainsRegex("swift +strength 286.7 MPa, prestrain 0.000129, exponent 0.1485")
    );
}

TEST(MaterialPage, ShowsLimitsWithGradeAndSource) {
    const std::string page = page_of("2024-O");
    EXPECT_THAT(page, ContainsRegex("stretches, snipped +10 % +assumed +screening rule 0.5 x A50"));
    EXPECT_THAT(page, ContainsRegex("stretches, polished +16 % +assumed"));
    EXPECT_THAT(page, ContainsRegex("r at 45 deg to the rolling direction +0.83 +assumed"));
    EXPECT_THAT(page, ContainsRegex("FLC0, major true strain +not known"));
    EXPECT_THAT(page_of("mild steel"), ContainsRegex("FLC0, major true strain +0.3 +assumed"));
}

TEST(MaterialPage, SaysWhatIsNotKnown) {
    EXPECT_THAT(
        page_of("2024-T3"), ContainsRegex("r at 0 deg to the rolling direction +not known")
    );
    EXPECT_THAT(page_of("5754-O"), HasSubstr("Smallest bend: not known"));
    sheet_library::KnownSheet bare = *sheet_library::find_sheet("2024-O");
    bare.proof_stress = {};
    bare.material.edge_limits.clear();
    bare.material.fitted_to.reset();
    const std::string page = material_page(bare);
    EXPECT_THAT(page, ContainsRegex("proof stress +not known"));
    EXPECT_THAT(page, ContainsRegex("stretches, sawn +not known"));
    EXPECT_THAT(page, ContainsRegex("voce.* range not known"));
}

// The table of docs/theory-findings.md, "Necking".
TEST(MaterialPage, ShowsTheComputedLocalNeck) {
    const std::string page = page_of("2024-O");
    EXPECT_THAT(page, HasSubstr("Local neck on straight paths, on the voce curve"));
    EXPECT_THAT(page, ContainsRegex("0.10[678] at minor 0.000"));
    EXPECT_THAT(page, HasSubstr("groove 1 % thinner: common practice, no source"));
    EXPECT_THAT(page_of("mild steel"), HasSubstr("not measured)"));
}

TEST(MaterialPage, ListsTheFormingLimitPointByPoint) {
    sheet_library::KnownSheet sheet = *sheet_library::find_sheet("2024-O");
    sheet.material.forming_limit = material::FormingLimit{
        {{-0.1, 0.34}, {0, 0.24}}, material::DataGrade::coupon, "dome test", {}};
    EXPECT_THAT(
        material_page(sheet), ContainsRegex("forming limit.*0.34 at minor -0.1 +coupon +dome test")
    );
    EXPECT_THAT(material_page(sheet), HasSubstr("no groove on this curve necks so late"));
    sheet.material.forming_limit->points = {{-0.05, 0.13}, {0, 0.1}};
    sheet.material.forming_limit->direction = std::acos(0.0);
    const std::string page = material_page(sheet);
    EXPECT_THAT(page, ContainsRegex("0.100 at minor 0.000 +measured 0.1 at minor 0"));
    EXPECT_THAT(page, HasSubstr("2 measured points of the"));
    EXPECT_THAT(page, ContainsRegex("major strain to the rolling direction +90 deg"));
}

} // namespace
} // namespace flangewright::command_line
