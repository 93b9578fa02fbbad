#include "solver/findings/neck_basis.hpp"
#include "tests/support/flow_law.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::findings {
namespace {

using material::DataGrade;
using ::testing::HasSubstr;
using ::testing::Not;

material::SheetMaterial made_up_sheet() {
    material::SheetMaterial material;
    material.name = "made-up";
    material.law_name = "swift";
    material.hardening = support::swift(330, 0.0032, 0.22);
    material.curve_grade = DataGrade::typical;
    material.curve_source = "a strip";
    return material;
}

material::FormingLimit
measured(std::vector<material::FormingPoint> points, DataGrade grade = DataGrade::coupon) {
    return {std::move(points), grade, "dome test", {}};
}

NeckFindings said_of(const material::SheetMaterial& material) {
    NeckFindings neck;
    say_basis(neck, material, limits::fit_groove(material));
    return neck;
}

TEST(NeckBasis, OfAnAssumedGrooveIsOneGradeBelowTheCurve) {
    material::SheetMaterial material = made_up_sheet();
    EXPECT_EQ(said_of(material).grade, DataGrade::assumed);
    material.curve_grade = DataGrade::coupon;
    EXPECT_EQ(said_of(material).grade, DataGrade::published);
    material.back_stresses = {{1000, 10}};
    material.back_stress_grade = DataGrade::assumed;
    EXPECT_EQ(said_of(material).grade, DataGrade::assumed);
    EXPECT_EQ(said_of(material).limit_of, "its hardening curve");
    EXPECT_THAT(said_of(material).source, HasSubstr("groove 1 % thinner: common practice"));
    EXPECT_THAT(said_of(material).source, HasSubstr("curve: a strip"));
}

TEST(NeckBasis, OfAMeasuredLimitIsTheWorseOfCurveAndPoints) {
    material::SheetMaterial material = made_up_sheet();
    material.forming_limit = measured({{0, 0.14}});
    EXPECT_EQ(said_of(material).grade, DataGrade::typical);
    material.curve_grade = DataGrade::coupon;
    EXPECT_EQ(said_of(material).grade, DataGrade::coupon);
    material.forming_limit->grade = DataGrade::published;
    EXPECT_EQ(said_of(material).grade, DataGrade::published);
}

TEST(NeckBasis, NamesPointsGradeSourceAndMiss) {
    material::SheetMaterial material = made_up_sheet();
    material.forming_limit = measured({{0, 0.14}});
    const NeckFindings neck = said_of(material);
    EXPECT_EQ(neck.limit_of, "its measured forming limit");
    EXPECT_THAT(
        neck.source,
        HasSubstr("fitted to 1 measured point of the forming limit (coupon: dome test)")
    );
    EXPECT_THAT(neck.source, HasSubstr("the computed limit lies 0 % "));
    material.forming_limit = measured({{-0.1, 0.3}, {0, 0.14}, {0.1, 0.19}});
    EXPECT_THAT(
        said_of(material).source, HasSubstr("fitted near plane strain to 3 measured points")
    );
    EXPECT_THAT(said_of(material).source, HasSubstr("% below them"));
}

TEST(NeckBasis, LosesAGradeWhereThePointsAreMissedByMoreThanAFifth) {
    material::SheetMaterial material = made_up_sheet();
    material.curve_grade = DataGrade::coupon;
    material.forming_limit = measured({{0, 0.14}});
    const limits::GrooveFit fit = limits::fit_groove(material);
    const double computed = limits::major_at_neck(
        {*material.hardening, *limits::yield_of(material)}, fit.choice, 0.4, 0
    );
    for (const double above : {0.15, 0.25}) {
        const double major = computed / (1 + above);
        material.forming_limit = measured({{0, 0.14}, {0.4 * major, major}});
        EXPECT_EQ(said_of(material).grade, above < 0.2 ? DataGrade::coupon : DataGrade::published);
    }
}

TEST(NeckBasis, SaysWhyPointsAreNotUsed) {
    material::SheetMaterial material = made_up_sheet();
    material.forming_limit = measured({{0, 0.14}}, DataGrade::assumed);
    EXPECT_THAT(said_of(material).source, HasSubstr("assumed, not measured"));
    material.forming_limit = measured({{0, 0.5}});
    const NeckFindings neck = said_of(material);
    EXPECT_THAT(neck.source, HasSubstr("not used, as no groove on this curve necks so late"));
    EXPECT_EQ(neck.limit_of, "its hardening curve");
    EXPECT_EQ(neck.grade, DataGrade::assumed);
    material.forming_limit = measured({{0, 0.005}});
    EXPECT_THAT(said_of(material).source, HasSubstr("the deepest looked for"));
}

TEST(NeckBasis, NamesTheCurveThatFits) {
    material::SheetMaterial material = made_up_sheet();
    material.law_name = "voce";
    material.hardening = support::flow_law(
        "voce", {{"yield_stress", {76}}, {"saturation_stress", {120}}, {"rate", {20}}}
    );
    material::OtherCurve other;
    other.law_name = "swift";
    other.law = support::swift(330, 0.0032, 0.22);
    other.grade = DataGrade::published;
    other.source = "the same strip";
    material.other_curves = {other};
    material.forming_limit = measured({{0, 0.14}});
    const NeckFindings neck = said_of(material);
    EXPECT_THAT(neck.source, HasSubstr("on the swift curve of made-up"));
    EXPECT_THAT(neck.source, HasSubstr("curve: the same strip"));
    EXPECT_THAT(neck.source, Not(HasSubstr("voce")));
    EXPECT_EQ(neck.grade, DataGrade::published);
}

} // namespace
} // namespace flangewright::findings
