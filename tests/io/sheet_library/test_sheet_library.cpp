#include "io/sheet_library/sheet_library.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::sheet_library {
namespace {

// Source: aluminum-association-typical, 2024-O: 10.6 Msi, 11 ksi, 27 ksi, 20 % in 50 mm; and
// aluminum-design-manual-2005, part VII, table 3-1: 0.5 t at 1/8 in.
TEST(SheetLibrary, HoldsThePublishedFiguresOf2024O) {
    const KnownSheet* sheet = find_sheet("2024-O");
    ASSERT_NE(sheet, nullptr);
    constexpr double mpa_per_ksi = 6.894757;
    EXPECT_NEAR(sheet->material.youngs_modulus, 10'600 * mpa_per_ksi, 50); // 10.6 has 3 digits
    EXPECT_NEAR(*sheet->proof_stress.value, 11 * mpa_per_ksi, 0.05);
    EXPECT_NEAR(*sheet->tensile_strength.value, 27 * mpa_per_ksi, 0.05);
    EXPECT_DOUBLE_EQ(*sheet->material.total_elongation.value, 0.20);
    ASSERT_EQ(sheet->material.bend_limits.size(), 6U);
    EXPECT_DOUBLE_EQ(sheet->material.bend_limits[3].thickness, 3.175);
    EXPECT_DOUBLE_EQ(sheet->material.bend_limits[3].radius_over_thickness, 0.5);
}

TEST(SheetLibrary, FindsNamesAsUsersTypeThem) {
    for (const char* name : {"2024-O", "2024-o", "2024O", "2024 o", "2024-O bare"}) {
        ASSERT_NE(find_sheet(name), nullptr) << name;
        EXPECT_EQ(find_sheet(name)->material.name, "2024-O") << name;
    }
    EXPECT_EQ(find_sheet("2024-T42")->material.name, "2024-T4");
    EXPECT_EQ(find_sheet("2024-O clad")->material.name, "2024-O clad");
    EXPECT_EQ(find_sheet("2024"), nullptr);
    EXPECT_EQ(find_sheet(""), nullptr);
}

TEST(SheetLibrary, SuggestsWhatResembles) {
    EXPECT_EQ(resembling_names("6061-T5").front(), "6061-T4");
    EXPECT_THAT(resembling_names("2024"), ::testing::Contains("2024-T3"));
    EXPECT_EQ(resembling_names("wood").size(), known_sheets().size());
    EXPECT_FALSE(resembling_names(std::string(100'000, 'x')).empty());
}

TEST(SheetLibrary, SaysGradeAndSourceOfEveryValue) {
    EXPECT_GE(known_sheets().size(), 15U);
    for (const KnownSheet& sheet : known_sheets()) {
        SCOPED_TRACE(sheet.material.name);
        for (const material::Sourced* value :
             {&sheet.youngs_modulus,
              &sheet.poisson_ratio,
              &sheet.proof_stress,
              &sheet.tensile_strength,
              &sheet.material.uniform_elongation,
              &sheet.material.total_elongation}) {
            EXPECT_TRUE(value->value.has_value());
            EXPECT_NE(value->grade, material::DataGrade::unknown);
            EXPECT_NE(value->source, "source not given");
        }
        EXPECT_NE(sheet.material.curve_grade, material::DataGrade::unknown);
        EXPECT_NE(sheet.material.curve_source, "source not given");
        if (!sheet.material.bend_limits.empty()) {
            EXPECT_NE(sheet.material.bend_grade, material::DataGrade::unknown);
        }
        EXPECT_EQ(find_sheet(sheet.material.name), &sheet);
    }
}

// The curve must give back the data it was made from: proof stress where it starts, tensile
// strength at maximum load, there the uniform elongation. Its parameters carry three digits.
TEST(SheetLibrary, CurvesReturnTheTensileTestTheyComeFrom) {
    for (const KnownSheet& sheet : known_sheets()) {
        SCOPED_TRACE(sheet.material.name);
        const material::HardeningLaw& law = *sheet.material.hardening;
        EXPECT_NEAR(law.at(0).stress, *sheet.proof_stress.value, 0.6);
        double most = 0;
        double most_strain = 0;
        for (double strain = 0; strain < 0.5; strain += 1e-4) {
            const double load = law.at(strain).stress * std::exp(-strain);
            if (load > most) {
                most = load;
                most_strain = strain;
            }
        }
        EXPECT_NEAR(most / *sheet.tensile_strength.value, 1, 0.01);
        EXPECT_NEAR(most_strain, std::log1p(*sheet.material.uniform_elongation.value), 0.005);
    }
}

} // namespace
} // namespace flangewright::sheet_library
