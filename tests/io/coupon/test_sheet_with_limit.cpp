#include "io/coupon/sheet_with_limit.hpp"
#include "io/key_file/document.hpp"
#include "io/sheet_library/sheet_file.hpp"

#include <gmock/gmock.h>

namespace flangewright::coupon {
namespace {

using material::EdgeFinish;
using ::testing::EndsWith;
using ::testing::HasSubstr;

const std::string plain_sheet = R"(# my notes
name = "own sheet"
youngs_modulus = "70 GPa"   # by feel
poisson_ratio = 0.33
[hardening]
law = "voce"
yield_stress = "76 MPa"
saturation_stress = "229 MPa"
rate = 16.6
)";

const MeasuredLimit limit{EdgeFinish::filed, 0.1412345, "coupon, lot \"7\\8\", 2026-11-26"};
const std::string line = R"(filed = { value = "14.12 %", grade = "coupon", )"
                         R"(source = "coupon, lot \"7\\8\", 2026-11-26" })"
                         "\n";

std::string changed(const std::string& text) {
    const auto with = sheet_with_limit(text, "own.toml", limit);
    return with ? *with : key_file::line_for(with.error());
}

TEST(SheetWithLimit, AddsTheSectionAndKeepsAllElse) {
    EXPECT_EQ(changed(plain_sheet), plain_sheet + "\n[edge_limit]\n" + line);
}

TEST(SheetWithLimit, ReplacesTheOneLimit) {
    const std::string before = "\n[edge_limit] # screening\nsnipped = \"9 %\"\n";
    const std::string after =
        "polished = { value = \"16 %\", source = \"x\" }\n[r_values]\nr0 = 0.7\n";
    EXPECT_EQ(
        changed(plain_sheet + before + "filed = \"15 %\" # old\n" + after),
        plain_sheet + before + line + after
    );
}

TEST(SheetWithLimit, AddsToASectionThatIsThere) {
    const std::string head = plain_sheet + "[edge_limit]\n";
    EXPECT_EQ(changed(head + "snipped = \"9 %\"\n"), head + line + "snipped = \"9 %\"\n");
}

TEST(SheetWithLimit, IsReadBackAsWritten) {
    const auto sheet =
        sheet_library::sheet_from(key_file::document_from(changed(plain_sheet), "own.toml")).sheet;
    ASSERT_TRUE(sheet.has_value());
    const material::Sourced& filed = sheet->material.edge_limits.at(EdgeFinish::filed);
    constexpr double digits = 5e-5; // four digits of 14.12 % are written
    EXPECT_NEAR(filed.value.value(), limit.stretch, digits);
    EXPECT_EQ(filed.grade, material::DataGrade::coupon);
    EXPECT_EQ(filed.source, limit.source);
}

TEST(SheetWithLimit, RefusesFormsItCanNotReplaceAlone) {
    for (const std::string form :
         {"[edge_limit.filed]\nvalue = \"15 %\"\n",
          "[edge_limit.snipped]\nvalue = \"15 %\"\n",
          "[edge_limit]\nfiled.value = \"15 %\"\n"}) {
        EXPECT_THAT(
            changed(plain_sheet + form), HasSubstr("a line filed = ... below [edge_limit]")
        );
    }
    EXPECT_THAT(
        changed("edge_limit = { filed = \"15 %\" }\n" + plain_sheet),
        EndsWith("do: write it so; nothing was changed")
    );
}

TEST(SheetWithLimit, RefusesWhatIsNoSheet) {
    EXPECT_THAT(changed("name = \"x\"\n"), HasSubstr("own.toml"));
    EXPECT_THAT(changed("name = "), HasSubstr("own.toml:1"));
}

} // namespace
} // namespace flangewright::coupon
