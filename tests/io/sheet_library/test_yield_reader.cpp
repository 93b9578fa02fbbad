// [sheet.material.yield]: the yield law of a sheet, read from a case and shown in a line.
#include "io/case_file/case_file.hpp"
#include "io/sheet_library/yield_text.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/case_file/reading.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::sheet_library {
namespace {

using case_file::read_case_text;
using case_file::read_well;

constexpr const char* back_stress = ", back_stress = { stiffness = 9000, recall_rate = 150 }";

// The good case, rolled along its line, with a yield section.
std::string with_yield(const std::string& yield, const std::string& more_hardening = "") {
    const std::string straight =
        case_file::with_line(6, "rolling_direction = 0", case_file::good_case);
    return case_file::with_line(
        4,
        "material.youngs_modulus = 70000\nmaterial.poisson_ratio = 0.33\n"
        "material.hardening = { law = \"swift\", strength = 330, prestrain = 0.0032, exponent = "
        "0.22"
            + more_hardening + " }\nmaterial.yield = { " + yield + " }",
        straight
    );
}

std::string problem_of(const std::string& yield, const std::string& more_hardening = "") {
    const auto result = read_case_text(with_yield(yield, more_hardening), "c.toml");
    if (result) {
        return "no problem";
    }
    EXPECT_EQ(result.error().size(), 1U);
    return line_for(result.error().front());
}

material::SheetMaterial material_of(const std::string& yield) {
    return read_well(with_yield(yield)).sheet.material;
}

TEST(YieldReader, ReadsRValues) {
    const material::SheetMaterial material = material_of(
        R"(law = "hill48", r0 = 0.65, r45 = 0.83, r90 = 0.6, grade = "coupon", source = "strip 5")"
    );
    ASSERT_NE(material.yield, nullptr);
    EXPECT_EQ(material.yield_name, "hill48");
    EXPECT_EQ(material.yield_grade, material::DataGrade::coupon);
    EXPECT_EQ(material.yield_source, "strip 5");
    EXPECT_NEAR(1 / material.yield->stress({0, 1, 0}), 0.97567, 5e-6); // reference benchmarks 08
    EXPECT_EQ(yield_text(material), "hill48, r0 0.65, r45 0.83, r90 0.6");
    EXPECT_EQ(sourced_yield_text(material), "hill48, r0 0.65, r45 0.83, r90 0.6 (coupon: strip 5)");
}

TEST(YieldReader, ReadsTheEightNumbers) {
    const material::SheetMaterial material = material_of(
        R"(law = "yld2000", exponent = 8, alpha = [0.4865, 1.3783, 0.7536, 1.0246, 1.0363, 0.9036, 1.2321, 1.4858])"
    );
    ASSERT_NE(material.yield, nullptr);
    EXPECT_EQ(material.yield_grade, material::DataGrade::unknown);
    EXPECT_NEAR(1 / material.yield->stress({0, 1, 0}), 0.91, 5e-6); // reference benchmarks 08
    EXPECT_EQ(
        yield_text(material),
        "yld2000, exponent 8, alpha 0.4865 1.3783 0.7536 1.0246 1.0363 0.9036 1.2321 1.4858"
    );
}

TEST(YieldReader, LeavesAnIsotropicSheetToItsOwnUpdate) {
    for (const material::SheetMaterial& material :
         {material_of("law = \"von_mises\""), read_well(case_file::good_case).sheet.material}) {
        EXPECT_EQ(material.yield, nullptr);
        EXPECT_EQ(material.yield_name, "von_mises");
        EXPECT_EQ(yield_text(material), "von_mises (the same in all directions)");
        EXPECT_EQ(sourced_yield_text(material), yield_text(material));
    }
}

TEST(YieldReader, ExplainsWhatIsWrong) {
    const std::string key = "c.toml:7: sheet.material.yield.";
    EXPECT_EQ(
        problem_of("law = \"hill48\", r0 = 0.65, r45 = 0.83, r90 = 0"),
        key
            + "r90: found 0, allowed 0.05 to 20 (width strain over thickness strain in tension "
              "across the rolling direction), do: check the number against its source"
    );
    EXPECT_EQ(
        problem_of("law = \"yld2000\", exponent = 8, alpha = [1, 1, 1, 1]"),
        key
            + "alpha: found 1, 1, 1, 1, allowed eight numbers, alpha 1 to 8, do: check the "
              "numbers against their source"
    );
    EXPECT_THAT(
        problem_of("law = \"hill48\", r0 = [0.65, 0.7], r45 = 0.83, r90 = 0.6"),
        testing::HasSubstr("r0: found 2 numbers, allowed one number")
    );
    EXPECT_THAT(
        problem_of("law = \"hill48\", r0 = 0.65, r45 = 0.83"),
        testing::HasSubstr("yield.r90: found nothing")
    );
    EXPECT_THAT(
        problem_of("law = \"hill48\", r0 = 0.65, r45 = 0.83, r90 = 0.6, r60 = 1"),
        testing::HasSubstr("yield.r60: found an unknown key")
    );
    EXPECT_THAT(problem_of("law = \"hill\""), testing::HasSubstr("yield.law: found \"hill\""));
}

TEST(YieldReader, RefusesARolledSheetWithBackStresses) {
    EXPECT_EQ(
        problem_of("law = \"hill48\", r0 = 0.65, r45 = 0.83, r90 = 0.6", back_stress),
        "c.toml:7: sheet.material.yield.law: found \"hill48\" for a sheet with back stresses, "
        "allowed \"von_mises\" beside back stresses, do: leave out either [yield] or "
        "[hardening.back_stress]"
    );
    EXPECT_EQ(problem_of("law = \"von_mises\"", back_stress), "no problem");
}

} // namespace
} // namespace flangewright::sheet_library
