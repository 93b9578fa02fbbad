#include "io/sheet_library/hardening_reader.hpp"
#include "tests/io/sheet_library/material_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::sheet_library {
namespace {

using ::testing::HasSubstr;

const std::string swift_beside = R"([swift]
strength = "287 MPa"
prestrain = 0.000129
exponent = 0.1485
fitted_to = [0, "14.5 %"]
grade = "coupon"
source = "strip 3"
)";

TEST(HardeningReader, ReadsASecondLawBesideTheOneThatIsUsed) {
    const ReadMaterial read = read_with(swift_beside);
    ASSERT_TRUE(read.material.has_value()) << read.problem();
    EXPECT_EQ(read.material->law_name, "voce"); // the mechanics keep theirs
    ASSERT_EQ(read.material->other_curves.size(), 1U);
    const material::OtherCurve& curve = read.material->other_curves.front();
    EXPECT_EQ(curve.law_name, "swift");
    EXPECT_NEAR(curve.law->at(0.1).stress, 287 * std::pow(0.100129, 0.1485), 1e-9);
    ASSERT_TRUE(curve.fitted_to.has_value());
    EXPECT_DOUBLE_EQ(curve.fitted_to->least, 0);
    EXPECT_DOUBLE_EQ(curve.fitted_to->most, 0.145);
    EXPECT_EQ(curve.grade, material::DataGrade::coupon);
    EXPECT_EQ(curve.source, "strip 3");
}

TEST(HardeningReader, ReadsTheRangeOfTheLawThatIsUsed) {
    const ReadMaterial read = read_with("fitted_to = [0.002, 0.14]\n");
    ASSERT_TRUE(read.material && read.material->fitted_to) << read.problem();
    EXPECT_DOUBLE_EQ(read.material->fitted_to->least, 0.002);
    EXPECT_FALSE(read_with("").material->fitted_to.has_value());
}

TEST(HardeningReader, RefusesARangeThatDoesNotGrow) {
    for (const char* range : {"[0.14, 0]", "[0.14]", "0.14"}) {
        const std::string key = std::string("fitted_to = ") + range + "\n";
        EXPECT_THAT(read_with(key).problem(), HasSubstr("own.toml:8: hardening.fitted_to: "))
            << range;
    }
}

TEST(HardeningReader, RefusesTheSameLawTwice) {
    const std::string again = "[voce]\nyield_stress = 76\nsaturation_stress = 229\nrate = 16\n";
    EXPECT_THAT(read_with(again).problem(), HasSubstr("own.toml:8: voce: found the law of"));
}

TEST(HardeningReader, NamesTheKeyOfASecondLawThatIsWrong) {
    std::string text = swift_beside;
    text.replace(text.find("0.1485"), 6, "14.85 ");
    EXPECT_THAT(read_with(text).problem(), HasSubstr("own.toml:11: swift.exponent: found"));
}

} // namespace
} // namespace flangewright::sheet_library
