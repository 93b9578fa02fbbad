// [sheet.material]: a sheet written out in the case, with its hardening and back stresses.
#include "io/case_file/case_file.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/case_file/reading.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::case_file {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

TEST(SheetWrittenOut, ReadsAMaterialWrittenOut) {
    const job::Job job = read_well(with_line(4, R"(material.name = "own coupon"
material.youngs_modulus = "10 Msi"
material.poisson_ratio = 0.33
material.hardening = { law = "swift", strength = "330 MPa", prestrain = 0.0032, exponent = 0.22, grade = "coupon", source = "strip 3" }
material.uniform_elongation = { value = "16 %", grade = "coupon", source = "strip 3" }
material.smallest_bend = { thickness = [0.8, "1/16 in"], radius_over_thickness = [1, 2] })"));
    const material::SheetMaterial& material = job.sheet.material;
    EXPECT_EQ(material.name, "own coupon");
    EXPECT_DOUBLE_EQ(material.youngs_modulus, 68947.57);
    EXPECT_EQ(material.law_name, "swift");
    EXPECT_EQ(material.curve_grade, material::DataGrade::coupon);
    EXPECT_EQ(material.curve_source, "strip 3");
    EXPECT_DOUBLE_EQ(*material.uniform_elongation.value, 0.16);
    EXPECT_FALSE(material.total_elongation.value.has_value());
    ASSERT_EQ(material.bend_limits.size(), 2U);
    EXPECT_DOUBLE_EQ(material.bend_limits[1].thickness, 1.5875);
    EXPECT_EQ(material.bend_grade, material::DataGrade::unknown);
    EXPECT_NEAR(material.hardening->at(0).stress, 330 * std::pow(0.0032, 0.22), 1e-9);
}

TEST(SheetWrittenOut, ReadsATableOfTheHardeningCurve) {
    const job::Job job = read_well(with_line(
        4, R"(material.youngs_modulus = 70000
material.poisson_ratio = 0.33
material.hardening = { law = "table", plastic_strain = [0, "5 %", 0.2], stress = ["76 MPa", "20 ksi", 220] })"
    ));
    EXPECT_DOUBLE_EQ(job.sheet.material.hardening->at(0.05).stress, 20 * 6.894757);
}

std::string with_back_stress(const std::string& text) {
    return with_line(
        4,
        R"(material.youngs_modulus = 70000
material.poisson_ratio = 0.33
material.hardening = { law = "swift", strength = 330, prestrain = 0.0032, exponent = 0.22, back_stress = { )"
            + text + " } }"
    );
}

std::string problem_of_back_stress(const std::string& text) {
    const auto result = read_case_text(with_back_stress(text), "c.toml");
    if (result) {
        return "no problem";
    }
    EXPECT_EQ(result.error().size(), 1U);
    return line_for(result.error().front());
}

TEST(SheetWrittenOut, ReadsBackStresses) {
    const job::Job job = read_well(with_back_stress(
        R"(stiffness = ["9 GPa", "1 ksi"], recall_rate = [150, 0], grade = "coupon", source = "strip 4")"
    ));
    const material::SheetMaterial& material = job.sheet.material;
    ASSERT_EQ(material.back_stresses.size(), 2U);
    EXPECT_DOUBLE_EQ(material.back_stresses[0].stiffness, 9000);
    EXPECT_DOUBLE_EQ(material.back_stresses[0].recall, 150);
    EXPECT_DOUBLE_EQ(material.back_stresses[1].stiffness, 6.894757);
    EXPECT_DOUBLE_EQ(material.back_stresses[1].recall, 0);
    EXPECT_EQ(material.back_stress_grade, material::DataGrade::coupon);
    EXPECT_EQ(material.back_stress_source, "strip 4");
    const job::Job single = read_well(with_back_stress("stiffness = 9000, recall_rate = 150"));
    EXPECT_EQ(single.sheet.material.back_stresses.size(), 1U);
    EXPECT_TRUE(read_well(good_case).sheet.material.back_stresses.empty());
}

TEST(SheetWrittenOut, ExplainsWhatIsWrongWithABackStress) {
    const std::string key = "c.toml:6: sheet.material.hardening.back_stress";
    EXPECT_EQ(
        problem_of_back_stress("stiffness = [9000, 800], recall_rate = 150"),
        key
            + ".recall_rate: found 150, allowed as many values as stiffnesses, do: write one rate "
              "for each back stress"
    );
    EXPECT_EQ(
        problem_of_back_stress("stiffness = [1, 2, 3, 4], recall_rate = [1, 2, 3, 4]"),
        key
            + ".stiffness: found 4 values, allowed one to three back stresses, do: leave out "
              "those that matter least"
    );
    EXPECT_EQ(
        problem_of_back_stress("stiffness = 0, recall_rate = 150"),
        key
            + ".stiffness: found 0, allowed 1 MPa to 500000 MPa (slope at which a back stress "
              "starts; sheet metals: from some hundred MPa to a few times the Young's modulus), "
              "do: "
              "check the value and its unit; stiffness over recall rate is what it grows to"
    );
    EXPECT_EQ(
        problem_of_back_stress("stiffness = 9000, recall_rate = -1"),
        key
            + ".recall_rate: found -1, allowed 0 to 100000 (how fast a back stress stops growing, "
              "per unit plastic strain; 0 never stops), do: write the rate as a plain number, 100 "
              "reaches two thirds at a strain of 1 %"
    );
    EXPECT_THAT(
        problem_of_back_stress("stiffness = 9000, recal_rate = 1, recall_rate = 150"),
        HasSubstr("back_stress.recal_rate: found an unknown key")
    );
    EXPECT_THAT(
        problem_of_back_stress("stiffness = [], recall_rate = []"),
        HasSubstr("found 0 values, allowed one to three back stresses, do: leave the section out")
    );
    EXPECT_THAT(
        problem_of_back_stress("recall_rate = 150"),
        HasSubstr("back_stress.stiffness: found nothing")
    );
}

TEST(SheetWrittenOut, RefusesHardeningThatItsLawCantTake) {
    const auto lines = [](const std::string& hardening) {
        return lines_of(read_case_text(
            with_line(
                4,
                "material.youngs_modulus = 70000\nmaterial.poisson_ratio = 0.33\n"
                "material.hardening = { "
                    + hardening + " }"
            ),
            "case.toml"
        ));
    };
    EXPECT_THAT(
        lines("law = \"swif\""),
        ElementsAre(HasSubstr("6: sheet.material.hardening.law: found \"swif\""))
    );
    EXPECT_THAT(
        lines("law = \"voce\", yield_stress = 200, saturation_stress = 100, rate = 10"),
        ElementsAre(HasSubstr("6: sheet.material.hardening.saturation_stress: found 100"))
    );
    EXPECT_THAT(
        lines("law = \"swift\", strength = 330, prestrain = 0.003, exponent = 2"),
        ElementsAre(HasSubstr("6: sheet.material.hardening.exponent: found 2, allowed 0.001 to 0.8")
        )
    );
    EXPECT_THAT(
        lines("law = \"table\", plastic_strain = [0, 0.1, \"x\"], stress = [70, 80, 90]"),
        ElementsAre(HasSubstr("6: sheet.material.hardening.plastic_strain[3]: found \"x\""))
    );
    EXPECT_THAT(
        lines("law = \"swift\", strength = 5000, prestrain = 0.4, exponent = 0.01"),
        ElementsAre(HasSubstr("6: sheet.material.hardening: found a curve that starts to flow"))
    );
}

} // namespace
} // namespace flangewright::case_file
