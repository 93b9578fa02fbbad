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
        if (!sheet.material.back_stresses.empty()) {
            EXPECT_NE(sheet.material.back_stress_grade, material::DataGrade::unknown);
            EXPECT_NE(sheet.material.back_stress_source, "source not given");
        }
        if (!sheet.material.bend_limits.empty()) {
            EXPECT_NE(sheet.material.bend_grade, material::DataGrade::unknown);
        }
        for (const material::OtherCurve& curve : sheet.material.other_curves) {
            EXPECT_NE(curve.grade, material::DataGrade::unknown);
            EXPECT_NE(curve.source, "source not given");
            EXPECT_TRUE(curve.fitted_to.has_value());
        }
        EXPECT_EQ(sheet.material.edge_limits.size(), material::edge_finishes.size());
        for (const auto& [finish, limit] : sheet.material.edge_limits) {
            EXPECT_NE(limit.grade, material::DataGrade::unknown);
            EXPECT_NE(limit.source, "source not given");
        }
        if (sheet.material.r_values) {
            EXPECT_NE(sheet.material.r_values->grade, material::DataGrade::unknown);
            EXPECT_NE(sheet.material.r_values->source, "source not given");
        }
        EXPECT_EQ(find_sheet(sheet.material.name), &sheet);
    }
}

void expect_tensile_test(const material::HardeningLaw& law, const KnownSheet& sheet) {
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

// Each curve must give back the data it was made from: proof stress where it starts, tensile
// strength at maximum load, there the uniform elongation. Its parameters carry three digits.
TEST(SheetLibrary, CurvesReturnTheTensileTestTheyComeFrom) {
    for (const KnownSheet& sheet : known_sheets()) {
        SCOPED_TRACE(sheet.material.name);
        const auto flow =
            material::steady_flow(sheet.material.hardening, sheet.material.back_stresses);
        expect_tensile_test(*flow, sheet);
        for (const material::OtherCurve& curve : sheet.material.other_curves) {
            SCOPED_TRACE(curve.law_name);
            expect_tensile_test(*curve.law, sheet);
        }
    }
}

// A sheet with a back stress has its curve shared in two; all others have both laws.
TEST(SheetLibrary, HasBothLawsOfEverySheetThatHardensEvenly) {
    for (const KnownSheet& sheet : known_sheets()) {
        SCOPED_TRACE(sheet.material.name);
        if (!sheet.material.back_stresses.empty()) {
            EXPECT_TRUE(sheet.material.other_curves.empty());
            continue;
        }
        ASSERT_EQ(sheet.material.other_curves.size(), 1U);
        const std::string& other = sheet.material.other_curves.front().law_name;
        EXPECT_TRUE(
            (sheet.material.law_name == "voce" && other == "swift")
            || (sheet.material.law_name == "swift" && other == "voce")
        );
    }
}

// The rule for a cut edge without data: half of the elongation at break where it was sheared, four
// fifths where it was dressed (common practice, no source).
TEST(SheetLibrary, EdgeLimitsWithoutDataFollowTheScreeningRule) {
    using material::EdgeFinish;
    for (const KnownSheet& sheet : known_sheets()) {
        SCOPED_TRACE(sheet.material.name);
        for (const auto& [finish, limit] : sheet.material.edge_limits) {
            if (limit.source.find("screening rule") == std::string::npos) {
                continue;
            }
            const bool is_dressed = finish == EdgeFinish::filed || finish == EdgeFinish::polished;
            const double share = is_dressed ? 0.8 : 0.5;
            EXPECT_EQ(limit.grade, material::DataGrade::assumed);
            EXPECT_NEAR(*limit.value, share * *sheet.material.total_elongation.value, 1e-9);
        }
    }
}

// Source: r-values of 6022-T4, a public dataset of yield-function fits: 0.80, 0.37, 0.54 (read).
TEST(SheetLibrary, HoldsThePublishedRValuesOf6022T4) {
    const KnownSheet* sheet = find_sheet("6022-T4");
    ASSERT_NE(sheet, nullptr);
    ASSERT_TRUE(sheet->material.r_values.has_value());
    EXPECT_DOUBLE_EQ(*sheet->material.r_values->r0, 0.80);
    EXPECT_DOUBLE_EQ(*sheet->material.r_values->r45, 0.37);
    EXPECT_DOUBLE_EQ(*sheet->material.r_values->r90, 0.54);
    EXPECT_EQ(sheet->material.r_values->grade, material::DataGrade::published);
}

TEST(SheetLibrary, KnowsTheSheetsOfTheTrade) {
    for (const char* name :
         {"1100-O",
          "2024-O",
          "2024-O clad",
          "2024-T3",
          "2024-T4",
          "2024-W",
          "3003-O",
          "3003-H14",
          "5052-O",
          "5052-H32",
          "6061-O",
          "6061-T4",
          "6061-T6",
          "7075-O",
          "6022-T4",
          "5754-O",
          "mild steel",
          "4130 normalized",
          "304 annealed"}) {
        EXPECT_NE(find_sheet(name), nullptr) << name;
    }
    EXPECT_EQ(find_sheet("2024-W")->material.curve_grade, material::DataGrade::assumed);
}

// The rule of n and thickness for FLC0 was made for steel, so no sheet of aluminium takes it: the
// one forming limit of the library is that of a steel.
TEST(SheetLibrary, GivesNoAluminiumTheFormingLimitOfASteel) {
    for (const KnownSheet& sheet : known_sheets()) {
        const bool is_aluminium = sheet.material.youngs_modulus < 100'000;
        EXPECT_FALSE(is_aluminium && sheet.material.forming_limit.has_value())
            << sheet.material.name;
    }
}

// What nobody measured stays unknown; a forming limit is known, by memory, of one steel alone.
TEST(SheetLibrary, LeavesUnknownWhatNobodyMeasured) {
    EXPECT_FALSE(find_sheet("2024-T3")->material.r_values.has_value());
    EXPECT_FALSE(find_sheet("2024-O")->material.forming_limit.has_value());
    ASSERT_TRUE(find_sheet("mild steel")->material.forming_limit.has_value());
    EXPECT_EQ(
        find_sheet("mild steel")->material.forming_limit->flc0.grade, material::DataGrade::assumed
    );
}

// Source: mil-hdbk-5h, 2024-T3 sheet, Table 3.2.3.0 (from memory): 47 ksi in tension, 39 ksi in
// compression along the rolling direction. After the flattening's 2 % (assumed) both 0.2 % yields
// stand as far from the size of the yield surface as the back stress then is; the size cancels.
TEST(SheetLibrary, BackStressOf2024T3GivesItsTwoYields) {
    constexpr double mpa_per_ksi = 6.894757;
    constexpr double flattening = 0.02;
    constexpr double offset = 0.002;
    const KnownSheet* sheet = find_sheet("2024-T3 with back stress");
    ASSERT_NE(sheet, nullptr);
    ASSERT_EQ(sheet->material.back_stresses.size(), 1U);
    const material::BackStress& back = sheet->material.back_stresses.front();
    const double left = material::steady_back_stress({&back, 1}, flattening).stress;
    const double end = back.stiffness / back.recall;
    const double pulled = end + (left - end) * std::exp(-back.recall * offset);
    const double pushed = -end + (left + end) * std::exp(-back.recall * offset);
    constexpr double digits_of_stiffness = 0.1; // 3900 is written with two
    EXPECT_NEAR((pulled + pushed) / mpa_per_ksi, 47 - 39, digits_of_stiffness);
}

// Both entries of the sheet come from one tensile test.
TEST(SheetLibrary, BackStressLeavesTheTensileCurveOf2024T3) {
    const material::SheetMaterial& shifted = find_sheet("2024-T3 with back stress")->material;
    const material::SheetMaterial& grown = find_sheet("2024-T3")->material;
    const auto flow = material::steady_flow(shifted.hardening, shifted.back_stresses);
    for (const double p : {0.0, 0.01, 0.03, 0.08, 0.13}) {
        const double stress = grown.hardening->at(p).stress;
        // Two Voce terms instead of one between the three points both go through.
        EXPECT_NEAR(flow->at(p).stress / stress, 1, 0.05) << p;
    }
}

} // namespace
} // namespace flangewright::sheet_library
