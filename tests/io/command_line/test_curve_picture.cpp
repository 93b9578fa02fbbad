#include "io/command_line/curve_picture.hpp"
#include "io/display/screen.hpp"
#include "io/sheet_library/sheet_library.hpp"
#include "tests/io/command_line/temporary_folder.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <sstream>

namespace flangewright::command_line {
namespace {

using ::testing::HasSubstr;

const material::SheetMaterial& material_of(const char* name) {
    return sheet_library::find_sheet(name)->material;
}

TEST(CurvePicture, ShowsBothLawsTheUsedOneFirst) {
    const chart::CurveChart chart = curve_chart_of(material_of("2024-O"));
    ASSERT_EQ(chart.curves.size(), 2U);
    EXPECT_EQ(chart.curves[0].name, "voce (used)");
    EXPECT_NEAR(chart.curves[0].stress(0), 76, 1e-9);
    EXPECT_DOUBLE_EQ(chart.curves[0].fitted_to, 0.145);
    EXPECT_EQ(chart.curves[1].name, "swift");
    // 16 % elongation: ln 1.16, less the elastic part.
    ASSERT_TRUE(chart.uniform_strain.has_value());
    EXPECT_NEAR(*chart.uniform_strain, std::log(1.16) - 216 / 73'100.0, 1e-4);
    EXPECT_EQ(chart.uniform_words, "maximum load at 16 % elongation (assumed)");
}

// With a back stress the law alone is not what a strip in tension shows.
TEST(CurvePicture, ShowsTensionOfASheetWithABackStress) {
    const material::SheetMaterial& material = material_of("2024-T3 with back stress");
    const chart::CurveChart chart = curve_chart_of(material);
    ASSERT_EQ(chart.curves.size(), 1U);
    EXPECT_GT(chart.curves[0].stress(0.1), material.hardening->at(0.1).stress + 30);
}

TEST(CurvePicture, OfACurveWithoutRangeIsDashedAllAlong) {
    material::SheetMaterial material = material_of("2024-O");
    material.fitted_to.reset();
    EXPECT_DOUBLE_EQ(curve_chart_of(material).curves[0].fitted_to, 0);
}

TEST(LimitPicture, ShowsBothCurvesWhileNothingIsMeasured) {
    const chart::LimitChart chart = limit_chart_of(material_of("2024-O"));
    ASSERT_EQ(chart.curves.size(), 2U);
    EXPECT_THAT(chart.curves[0].name, HasSubstr("voce curve, groove 1 % thinner (common practice"));
    EXPECT_TRUE(chart.curves[0].is_used);
    EXPECT_THAT(chart.curves[1].name, HasSubstr("swift"));
    EXPECT_FALSE(chart.curves[1].is_used);
    EXPECT_TRUE(chart.measured_minor.empty());
    // The table of docs/theory-findings.md, "Necking": a strip in tension, equal stretch both ways.
    EXPECT_NEAR(chart.curves[0].major.front(), 0.144, 0.003);
    EXPECT_NEAR(chart.curves[0].major.back(), 0.361, 0.005);
    EXPECT_NEAR(chart.curves[0].minor.back(), chart.curves[0].major.back(), 1e-12);
}

TEST(LimitPicture, ShowsWhatIsMeasuredAndTheCurveFittedToIt) {
    material::SheetMaterial material = material_of("2024-O");
    material.forming_limit = material::FormingLimit{
        {{-0.05, 0.13}, {0, 0.1}}, material::DataGrade::coupon, "dome test", {}};
    const chart::LimitChart chart = limit_chart_of(material);
    ASSERT_EQ(chart.curves.size(), 2U);
    EXPECT_THAT(chart.curves[0].name, HasSubstr("scaled to meet the dots"));
    EXPECT_THAT(chart.curves[1].name, HasSubstr("fitted to the dots"));
    EXPECT_FALSE(chart.curves[1].is_used);
    constexpr std::size_t plane_strain = 10; // of 30 ratios from -0.5 to 1
    EXPECT_NEAR(chart.curves[0].minor[plane_strain], 0, 1e-9);
    EXPECT_NEAR(chart.curves[0].major[plane_strain], 0.1, 1e-9);
    EXPECT_EQ(chart.measured_minor, (std::vector{-0.05, 0.0}));
    EXPECT_EQ(chart.measured_major, (std::vector{0.13, 0.1}));
    EXPECT_EQ(chart.measured_words, "dots: forming limit of the sheet, coupon");
}

TEST(LimitPicture, SaysOfAnAssumedLimitThatItIsNotUsed) {
    const chart::LimitChart chart = limit_chart_of(material_of("mild steel"));
    EXPECT_EQ(chart.measured_major, std::vector{0.3});
    EXPECT_EQ(chart.measured_words, "dots: forming limit of the sheet, assumed, not used");
}

TEST(LimitPicture, StandsBesideTheFirst) {
    EXPECT_EQ(limit_file_beside("of/a.sheet.png"), "of/a.sheet_neck.png");
}

class PictureFile : public WithFolder {
protected:
    int write(const std::string& name) {
        Terminal terminal{out_, err_, false};
        return write_picture(curve_chart_of(material_of("2024-O")), folder_ / name, terminal);
    }
    std::ostringstream out_;
    std::ostringstream err_;
};

TEST_F(PictureFile, IsAPng) {
    if (!display::Screen::find(display::Screen::from_surroundings())) {
        GTEST_SKIP() << "no display and no package xvfb";
    }
    ASSERT_EQ(write("a.png"), 0) << err_.str();
    const std::string bytes = text_of(folder_ / "a.png");
    EXPECT_EQ(bytes.substr(0, 4), "\x89PNG");
    EXPECT_GT(bytes.size(), 20'000U); // something is drawn on it
    EXPECT_THAT(out_.str(), HasSubstr("a.png"));
}

TEST_F(PictureFile, MustEndInPng) {
    EXPECT_EQ(write("a.jpg"), 2);
    EXPECT_THAT(err_.str(), HasSubstr("command line: --picture: found"));
}

TEST_F(PictureFile, NeedsAFolder) {
    if (!display::Screen::find(display::Screen::from_surroundings())) {
        GTEST_SKIP() << "no display and no package xvfb";
    }
    EXPECT_EQ(write("nowhere/a.png"), 4);
    EXPECT_THAT(err_.str(), HasSubstr("nowhere"));
}

} // namespace
} // namespace flangewright::command_line
