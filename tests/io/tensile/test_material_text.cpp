#include "io/sheet_library/sheet_file.hpp"
#include "io/tensile/material_text.hpp"
#include "tests/solver/material/fit/made_test.hpp"

#include <gmock/gmock.h>

namespace flangewright::tensile {
namespace {

using material::DataGrade;

material::MadeStrip strip() {
    return {
        .law = "voce",
        .values = material::voce_values,
        .stress_noise = 0.3,
        .strain_noise = 1e-5,
        .r = 0.7};
}

material::TensileFit fit_of(const material::MadeStrip& made) {
    const auto fit = material::fit_tensile_test(material::made_test(made), {});
    EXPECT_TRUE(fit.has_value());
    return fit.value_or(material::TensileFit{});
}

sheet_library::KnownSheet read_back(const std::string& text) {
    const sheet_library::SheetFile file =
        sheet_library::sheet_from(key_file::document_from(text, "own.toml"));
    EXPECT_TRUE(file.sheet.has_value())
        << (file.problems.empty() ? "" : key_file::line_for(file.problems.front())) << "\n"
        << text;
    return file.sheet.value_or(sheet_library::KnownSheet{});
}

TEST(MaterialText, IsReadBackAsTheFit) {
    const material::TensileFit fit = fit_of(strip());
    const auto sheet = read_back(material_text(
        fit,
        {.name = "lot 7", .source = "tensile test a.csv", .gauge = "50 mm gauge", .direction = 45}
    ));
    const material::SheetMaterial& read = sheet.material;
    EXPECT_EQ(read.name, "lot 7");
    EXPECT_NEAR(read.youngs_modulus / fit.elastic.modulus, 1, 1e-3); // four digits are written
    EXPECT_EQ(sheet.youngs_modulus.grade, DataGrade::coupon);
    EXPECT_EQ(sheet.poisson_ratio.grade, DataGrade::assumed);
    EXPECT_NEAR(*sheet.proof_stress.value, fit.elastic.proof_stress, 0.051);
    EXPECT_NEAR(*sheet.tensile_strength.value, fit.tensile_strength, 0.051);
    EXPECT_NEAR(*read.uniform_elongation.value, *fit.uniform_elongation, 1e-4);
    EXPECT_EQ(read.uniform_elongation.grade, DataGrade::coupon);
    EXPECT_NEAR(*read.total_elongation.value, fit.total_elongation, 1e-4);
    EXPECT_THAT(read.total_elongation.source, ::testing::HasSubstr("50 mm gauge"));
    EXPECT_EQ(read.law_name, "voce");
    EXPECT_EQ(read.curve_grade, DataGrade::coupon);
    for (const double p : {0.0, 0.01, 0.1}) {
        EXPECT_NEAR(read.hardening->at(p).stress, fit.curves[0].curve.law->at(p).stress, 0.05) << p;
    }
    ASSERT_EQ(read.other_curves.size(), 1U);
    EXPECT_EQ(read.other_curves[0].law_name, "swift");
    ASSERT_TRUE(read.fitted_to && read.r_values);
    EXPECT_NEAR(read.fitted_to->most, fit.points.plastic_strain.back(), 1e-4);
    EXPECT_NEAR(*read.r_values->r45, 0.7, 0.01);
    EXPECT_FALSE(read.r_values->r0.has_value());
    EXPECT_NEAR(
        *read.edge_limits.at(material::EdgeFinish::snipped).value, 0.5 * fit.total_elongation, 1e-4
    );
}

TEST(MaterialText, LeavesOutWhatTheTestDoesNotTell) {
    material::MadeStrip ended = strip();
    ended.r = 0;
    ended.last_plastic_strain = 0.08;
    ended.n_elastic = 3;
    const auto sheet = read_back(material_text(fit_of(ended), {.name = "x", .source = "y"}));
    EXPECT_FALSE(sheet.material.uniform_elongation.value.has_value());
    EXPECT_FALSE(sheet.material.total_elongation.value.has_value());
    EXPECT_FALSE(sheet.material.r_values.has_value());
    EXPECT_TRUE(sheet.material.edge_limits.empty());
    EXPECT_EQ(sheet.youngs_modulus.grade, DataGrade::assumed);
}

TEST(MaterialText, KeepsOddNamesWhole) {
    const std::string odd = R"(7" strip \ lot "b")";
    const auto sheet = read_back(material_text(fit_of(strip()), {.name = odd, .source = "a\nb"}));
    EXPECT_EQ(sheet.material.name, odd);
    EXPECT_EQ(sheet.proof_stress.source, "a b");
}

} // namespace
} // namespace flangewright::tensile
