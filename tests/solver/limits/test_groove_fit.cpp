#include "solver/limits/groove_fit.hpp"
#include "tests/support/flow_law.hpp"
#include "tests/support/yield_sets.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::limits {
namespace {

using material::DataGrade;
using material::FormingLimit;
using material::FormingPoint;
using material::SheetMaterial;

const std::shared_ptr<const material::YieldLaw> von_mises = support::yield_law("von_mises", {});

constexpr double n = 0.2;
constexpr double no_prestrain = 1e-9;
// The time step's 2 % of the major strain (tests/published/test_local_neck.cpp) in the depth.
constexpr double of_step = 0.002;

SheetMaterial power_law_sheet() {
    SheetMaterial material;
    material.law_name = "swift";
    material.hardening = support::swift(1, no_prestrain, n);
    return material;
}

FormingLimit measured(std::vector<FormingPoint> points) {
    return {std::move(points), DataGrade::published, "a made-up test", {}};
}

// Groove that necks at this major strain in plane strain, power law and von Mises: load in sheet
// and groove alike while the groove's is at its largest, (e/n)^n exp(n - e). Derived here.
double exact_groove(double major) {
    return std::pow(major / n, n) * std::exp(n - major);
}

TEST(GrooveFit, MeetsAMeasuredLimitInPlaneStrain) {
    for (const double major : {0.10, 0.12, 0.15}) {
        SheetMaterial material = power_law_sheet();
        material.forming_limit = measured({{0, major}});
        const GrooveFit fit = fit_groove(material);
        ASSERT_EQ(fit.basis, GrooveBasis::measured) << major;
        EXPECT_NEAR(fit.choice.thickness_ratio, exact_groove(major), of_step) << major;
        ASSERT_EQ(fit.points.size(), 1U);
        EXPECT_NEAR(fit.points[0].computed_major, major, 0.002 * major);
        EXPECT_EQ(fit.grade, DataGrade::published);
        EXPECT_EQ(fit.source, "a made-up test");
        EXPECT_TRUE(fit.is_by_plane_strain);
        EXPECT_FALSE(fit.is_other_curve);
    }
}

TEST(GrooveFit, TakesFlc0AsAPoint) {
    SheetMaterial material = power_law_sheet();
    material.forming_limit = FormingLimit{};
    material.forming_limit->flc0 = {0.12, DataGrade::coupon, "strips with two grooves"};
    const GrooveFit fit = fit_groove(material);
    EXPECT_EQ(fit.basis, GrooveBasis::measured);
    EXPECT_EQ(fit.grade, DataGrade::coupon);
    EXPECT_NEAR(fit.choice.thickness_ratio, exact_groove(0.12), of_step);
    // A point at no minor strain is that limit already.
    material.forming_limit->points = {{0, 0.12}};
    material.forming_limit->grade = DataGrade::typical;
    material.forming_limit->source = "a table";
    EXPECT_EQ(fit_groove(material).points.size(), 1U);
    EXPECT_EQ(fit_groove(material).source, "a table");
}

// Points computed with a groove of 0.985 give that groove back, on any yield law and direction.
TEST(GrooveFit, FindsTheGrooveThatPointsWereComputedWith) {
    constexpr double depth = 0.985;
    SheetMaterial material = power_law_sheet();
    material.yield = support::hill48(0.6, 0.9, 1.2);
    const double across = 0.5 * std::numbers::pi;
    const NeckingSheet sheet{*material.hardening, *material.yield};
    const GrooveChoice choice{.thickness_ratio = depth};
    std::vector<FormingPoint> points;
    for (const double ratio : {-0.4, -0.2, 0.3}) { // none near plane strain
        const double major = major_at_neck(sheet, choice, ratio, across);
        points.push_back({ratio * major, major});
    }
    material.forming_limit = measured(points);
    material.forming_limit->direction = across;
    const GrooveFit fit = fit_groove(material);
    ASSERT_EQ(fit.basis, GrooveBasis::measured);
    EXPECT_FALSE(fit.is_by_plane_strain);
    EXPECT_NEAR(1 - fit.choice.thickness_ratio, 1 - depth, 0.02 * (1 - depth));
    EXPECT_LT(std::abs(fit.most_above()), 0.005);
    EXPECT_LT(std::abs(fit.most_below()), 0.005);
    material.forming_limit->direction = 0;
    EXPECT_GT(fit_groove(material).most_above() + fit_groove(material).most_below(), 0.01);
}

// Where there is a point near plane strain it is met, and the others tell by how much they are not.
TEST(GrooveFit, TellsHowFarThePointsAwayFromPlaneStrainAreMissed) {
    SheetMaterial material = power_law_sheet();
    const NeckingSheet sheet{*material.hardening, *von_mises};
    const double left = major_at_neck(sheet, {}, -0.4, 0);
    const double middle = major_at_neck(sheet, {}, 0, 0);
    const double right = major_at_neck(sheet, {}, 0.5, 0);
    material.forming_limit =
        measured({{-0.4 * left / 0.9, left / 0.9}, {0, middle}, {0.5 * right / 1.1, right / 1.1}});
    const GrooveFit fit = fit_groove(material);
    EXPECT_NEAR(fit.choice.thickness_ratio, 0.99, 1e-4);
    EXPECT_NEAR(fit.most_above(), 0.1, 0.005);
    EXPECT_NEAR(fit.most_below(), 0.1, 0.005);
    // Straight between the points, level beyond them.
    EXPECT_NEAR(fit.correction(-0.4), 0.9, 0.005);
    EXPECT_NEAR(fit.correction(0), 1, 0.002);
    EXPECT_NEAR(fit.correction(0.25), std::sqrt(1.1), 0.005);
    EXPECT_NEAR(fit.correction(1), 1.1, 0.005);
    EXPECT_NEAR(fit.correction(-1), 0.9, 0.005);
}

TEST(GrooveFit, DoesNotUseWhatIsOnlyAssumed) {
    SheetMaterial material = power_law_sheet();
    EXPECT_EQ(fit_groove(material).basis, GrooveBasis::assumed);
    material.forming_limit = measured({{0, 0.12}});
    for (const DataGrade grade : {DataGrade::assumed, DataGrade::unknown}) {
        material.forming_limit->grade = grade;
        const GrooveFit fit = fit_groove(material);
        EXPECT_EQ(fit.basis, GrooveBasis::doubtful);
        EXPECT_EQ(fit.choice.thickness_ratio, GrooveChoice{}.thickness_ratio);
        EXPECT_TRUE(fit.points.empty());
        EXPECT_EQ(fit.correction(0.3), 1);
    }
    material.forming_limit->grade = DataGrade::typical;
    EXPECT_EQ(fit_groove(material).basis, GrooveBasis::measured);
}

// In plane strain an even power-law sheet necks at a major strain of n.
TEST(GrooveFit, KeepsTheUsualGrooveWhereEvenAnEvenSheetNecksEarlier) {
    SheetMaterial material = power_law_sheet();
    material.forming_limit = measured({{0, 1.2 * n}});
    const GrooveFit fit = fit_groove(material);
    EXPECT_EQ(fit.basis, GrooveBasis::above_even_sheet);
    EXPECT_FALSE(fit.is_from_points());
    EXPECT_EQ(fit.choice.thickness_ratio, GrooveChoice{}.thickness_ratio);
    EXPECT_LT(fit.most_above(), -0.2) << "the computed limit lies below what was measured";
}

TEST(GrooveFit, GoesNoDeeperThanAFifth) {
    SheetMaterial material = power_law_sheet();
    material.forming_limit = measured({{0, 0.01}});
    const GrooveFit fit = fit_groove(material);
    EXPECT_EQ(fit.basis, GrooveBasis::below_deepest);
    EXPECT_EQ(fit.choice.thickness_ratio, deepest);
    EXPECT_GT(fit.most_above(), 0);
}

// A curve that is level early necks before what was measured; the sheet's other curve does not.
TEST(GrooveFit, GoesOverToTheOtherCurveWhereThatIsNeeded) {
    SheetMaterial material = power_law_sheet();
    material.law_name = "voce";
    material.hardening = support::flow_law(
        "voce", {{"yield_stress", {0.4}}, {"saturation_stress", {0.6}}, {"rate", {20}}}
    );
    material::OtherCurve other;
    other.law_name = "swift";
    other.law = support::swift(1, no_prestrain, n);
    material.other_curves = {other};
    material.forming_limit = measured({{0, 0.15}});
    const GrooveFit fit = fit_groove(material);
    ASSERT_EQ(fit.basis, GrooveBasis::measured);
    EXPECT_TRUE(fit.is_other_curve);
    EXPECT_EQ(fit.law_name, "swift");
    EXPECT_EQ(fit.flow, other.law);
    EXPECT_NEAR(fit.choice.thickness_ratio, exact_groove(0.15), of_step);
    material.forming_limit = measured({{0, 0.03}});
    EXPECT_FALSE(fit_groove(material).is_other_curve);
}

TEST(GrooveFit, WithoutACurveIsNone) {
    EXPECT_EQ(fit_groove({}).flow, nullptr);
}

TEST(GrooveFit, AnEqualStretchBothWaysEndsWhereTheSearchDoes) {
    const SheetMaterial material = power_law_sheet();
    const NeckingSheet sheet{*material.hardening, *von_mises};
    const double major = major_at_neck(sheet, {.thickness_ratio = shallowest}, 1, 0);
    EXPECT_TRUE(std::isfinite(major));
    EXPECT_LE(major, GrooveChoice{}.furthest);
}

} // namespace
} // namespace flangewright::limits
