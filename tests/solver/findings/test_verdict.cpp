#include "solver/findings/verdict.hpp"
#include "tests/support/flange_job.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace flangewright::findings {
namespace {

using material::DataGrade;
using testing::HasSubstr;

/// A ring with a wide bend (outer fibre 1/7 = 14.3 %, allowed 50 %: share 0.29) whose edge decides.
/// Elongation 20 %; all numbers invented.
job::Job job_with(DataGrade grade) {
    job::Job job = support::ring_job();
    job.sheet.material.uniform_elongation = {0.2, grade, "invented"};
    job.sheet.material.bend_limits = {{0.4, 0}, {0.8, 0}, {1.6, 0.5}};
    job.sheet.material.bend_grade = grade;
    return job;
}

Verdict judge_edge(const job::Job& job, double engineering_stretch, double bend_strain = 0) {
    PartFindings part;
    part.edge_strain_most = std::log1p(engineering_stretch);
    part.edge_tension_most = part.edge_tension_used = part.edge_strain_most;
    part.bend_strain_most = part.bend_strain_used = std::log1p(bend_strain);
    return judge(job, std::span(&part, 1));
}

TEST(Verdict, PutsItsWordAtTheEdgesOfTheShares) {
    const job::Job job = job_with(DataGrade::coupon);
    EXPECT_EQ(judge_edge(job, 0.2 * 0.799).word, VerdictWord::holds);
    EXPECT_EQ(judge_edge(job, 0.2 * 0.801).word, VerdictWord::close);
    EXPECT_EQ(judge_edge(job, 0.2 * 0.999).word, VerdictWord::close);
    EXPECT_EQ(judge_edge(job, 0.2 * 1.001).word, VerdictWord::splits);
    EXPECT_NEAR(judge_edge(job, 0.15).share_used.value(), 0.75, 1e-12);
}

Verdict judge_interior(const job::Job& job, double share, DataGrade grade) {
    PartFindings part;
    part.neck = NeckFindings{.share = share, .major_strain = 0.1, .grade = grade};
    return judge(job, std::span(&part, 1));
}

TEST(Verdict, WeighsTheInteriorByTheSameWords) {
    const job::Job job = job_with(DataGrade::coupon);
    const auto word = [&](double share, DataGrade grade) {
        return judge_interior(job, share, grade).word;
    };
    EXPECT_EQ(word(0.79, DataGrade::published), VerdictWord::holds);
    EXPECT_EQ(word(0.81, DataGrade::published), VerdictWord::close);
    EXPECT_EQ(word(1.01, DataGrade::published), VerdictWord::splits);
    EXPECT_EQ(word(0.49, DataGrade::assumed), VerdictWord::holds);
    EXPECT_EQ(word(0.51, DataGrade::assumed), VerdictWord::close);
    const Verdict verdict = judge_interior(job, 1.25, DataGrade::assumed);
    EXPECT_EQ(verdict.share_used, 1.25);
    EXPECT_EQ(verdict.grade, DataGrade::assumed);
    EXPECT_THAT(
        verdict.because,
        HasSubstr("The sheet away from edges and bends stretches by 10.5 %. Strained on as it was, "
                  "it necks there near 8.3 %")
    );
}

TEST(Verdict, SaysWhatAnInteriorsLimitStandsOnAndWhatTheOtherCurveHas) {
    PartFindings part;
    part.neck = NeckFindings{
        .share = 0.9,
        .major_strain = 0.1,
        .grade = DataGrade::published,
        .limit_of = "its measured forming limit"};
    const job::Job job = job_with(DataGrade::coupon);
    EXPECT_THAT(
        judge(job, std::span(&part, 1)).because,
        HasSubstr("(from its measured forming limit, published data)")
    );
    part.neck->other_share = 0.64;
    part.neck->other_law = "swift";
    EXPECT_THAT(
        judge(job, std::span(&part, 1)).because,
        HasSubstr(
            "With the sheet's other hardening curve (swift) 64 % of the way to a neck is used."
        )
    );
}

// Below half its limit the interior says nothing about how far the other limits' data go.
TEST(Verdict, KeepsItsGradeWhileTheInteriorIsFarFromANeck) {
    const job::Job job = job_with(DataGrade::coupon);
    EXPECT_EQ(judge_interior(job, 0.4, DataGrade::assumed).grade, DataGrade::coupon);
}

/// The edge stretched by 2 % of 20; the drawing allows a tenth of the thickness to go.
Verdict judge_thickness(const job::Job& job, std::vector<double> thinning_after_steps) {
    job::Job limited = job;
    limited.sheet.least_thickness = 0.9 * job.sheet.thickness;
    std::vector<PartFindings> steps;
    for (const double thinning : thinning_after_steps) {
        PartFindings& part = steps.emplace_back();
        part.edge_tension_used = std::log1p(0.02);
        part.thinning_most = thinning;
    }
    return judge(limited, steps);
}

TEST(Verdict, WeighsTheThicknessTheDrawingAllows) {
    const job::Job job = job_with(DataGrade::coupon);
    EXPECT_EQ(judge_thickness(job, {0.079}).word, VerdictWord::holds);
    EXPECT_EQ(judge_thickness(job, {0.081}).word, VerdictWord::close);
    const Verdict verdict = judge_thickness(job, {0.12});
    EXPECT_EQ(verdict.word, VerdictWord::too_thin);
    EXPECT_NEAR(verdict.share_used.value(), 1.2, 1e-12);
    EXPECT_EQ(verdict.limits.back().place, "thickness");
    EXPECT_THAT(
        verdict.because,
        HasSubstr(
            "The part is thinned by 12.0 % at its thinnest. The drawing allows 10.0 %, so 120 "
            "% of the limit is used. It is thinner than the drawing allows"
        )
    );
}

// What is known to be beyond its limit is said before what is unknown, a split before all.
TEST(Verdict, SaysTooThinBeforeUnknownAndASplitBeforeIt) {
    job::Job job = job_with(DataGrade::coupon);
    job.sheet.material.uniform_elongation = {};
    EXPECT_EQ(judge_thickness(job, {0.05}).word, VerdictWord::unknown);
    EXPECT_EQ(judge_thickness(job, {0.12}).word, VerdictWord::too_thin);
    job.sheet.material.uniform_elongation = {0.01, DataGrade::coupon, "made up"};
    EXPECT_EQ(judge_thickness(job, {0.12}).word, VerdictWord::splits);
}

TEST(Verdict, WeighsTheThicknessOfTheFinishedPart) {
    const job::Job job = job_with(DataGrade::coupon);
    EXPECT_NEAR(*judge_thickness(job, {0.12, 0.05}).limits.back().share, 0.5, 1e-12);
    EXPECT_NEAR(*judge_thickness(job, {-0.01}).limits.back().share, 0, 1e-12);
}

// The drawing's word is sure, whatever the sheet's data are.
TEST(Verdict, DoesNotDoubtTheDrawingsThickness) {
    const job::Job job = job_with(DataGrade::assumed);
    EXPECT_EQ(judge_thickness(job, {0.079}).word, VerdictWord::holds);
    EXPECT_EQ(judge_thickness(job, {0.079}).grade, DataGrade::assumed); // edge and bend govern, too
}

TEST(Verdict, SaysNothingOfThicknessWithoutAWordFromTheDrawing) {
    const job::Job job = job_with(DataGrade::coupon);
    const Verdict verdict = judge_edge(job, 0.02);
    for (const LimitUse& limit : verdict.limits) {
        EXPECT_NE(limit.place, thickness_place);
    }
}

TEST(Verdict, HeedsTheUsersCloseShare) {
    job::Job job = job_with(DataGrade::coupon);
    job.close_share = 0.6;
    EXPECT_EQ(judge_edge(job, 0.2 * 0.7).word, VerdictWord::close);
}

// Source: common practice, no source: without a coupon (or published data) nothing above half the
// limit is called safe.
TEST(Verdict, IsNoBetterThanCloseAboveHalfALimitWithoutACoupon) {
    for (const DataGrade grade : {DataGrade::typical, DataGrade::assumed}) {
        const job::Job job = job_with(grade);
        EXPECT_EQ(judge_edge(job, 0.2 * 0.499).word, VerdictWord::holds);
        const Verdict verdict = judge_edge(job, 0.2 * 0.501);
        EXPECT_EQ(verdict.word, VerdictWord::close);
        EXPECT_THAT(verdict.because, HasSubstr("coupon"));
    }
    EXPECT_EQ(judge_edge(job_with(DataGrade::published), 0.2 * 0.501).word, VerdictWord::holds);
}

TEST(Verdict, IsUnknownWhenANeededNumberIsMissing) {
    job::Job job = job_with(DataGrade::published);
    job.sheet.material.uniform_elongation = {};
    const Verdict verdict = judge_edge(job, 0.1);
    EXPECT_EQ(verdict.word, VerdictWord::unknown);
    EXPECT_EQ(verdict.grade, DataGrade::unknown);
    EXPECT_NEAR(verdict.share_used.value(), 2.0 / 7 / uneven_bend, 1e-12); // the bend is known
    EXPECT_EQ(
        verdict.because,
        "The free edge stretches by 10.0 %, but the sheet's uniform elongation isn't known."
    );
    job = job_with(DataGrade::published);
    job.sheet.thickness = 2; // above the table
    EXPECT_EQ(judge_edge(job, 0.1).word, VerdictWord::unknown);
}

TEST(Verdict, DoesNotLetAnUnknownLimitHideASplit) {
    job::Job job = job_with(DataGrade::typical);
    job.sheet.material.uniform_elongation = {};
    const Verdict verdict = judge_edge(job, 0.1, 0.6);
    EXPECT_EQ(verdict.word, VerdictWord::splits);
    EXPECT_NEAR(verdict.share_used.value(), 1.2 / uneven_bend, 1e-12);
    EXPECT_EQ(verdict.grade, DataGrade::typical);
}

TEST(Verdict, NeedsNoElongationForAnEdgeThatIsNotStretched) {
    job::Job job = job_with(DataGrade::published);
    job.blank.line = outline::BendLine::straight(60);
    job.sheet.material.uniform_elongation = {};
    const Verdict verdict = judge_edge(job, 0.0005);
    EXPECT_EQ(verdict.word, VerdictWord::holds);
    EXPECT_EQ(verdict.grade, DataGrade::published);
    EXPECT_EQ(judge_edge(job, 0.003).word, VerdictWord::unknown);
}

TEST(Verdict, SaysThatAShrinkingEdgeDoesNotSplitAndWrinklesAreNotJudged) {
    job::Job job = job_with(DataGrade::published);
    job.blank.line = outline::BendLine::arc(63, 1, outline::Curve::convex);
    const Verdict verdict = judge_edge(job, -0.3);
    EXPECT_EQ(verdict.word, VerdictWord::holds);
    EXPECT_EQ(verdict.limits.front().share.value(), 0);
    EXPECT_FALSE(verdict.limits.front().is_needed);
    EXPECT_THAT(verdict.because, HasSubstr("pressed together along itself (-30.0 %)"));
    EXPECT_THAT(verdict.because, HasSubstr("can't split by stretch"));
    EXPECT_THAT(verdict.because, HasSubstr("whether it wrinkles isn't judged"));
    EXPECT_NEAR(verdict.share_used.value(), 2.0 / 7 / uneven_bend, 1e-12);
}

TEST(Verdict, WeighsTheStretchOfAnEdgeThatShrinksElsewhere) {
    job::Job job = job_with(DataGrade::published);
    job.blank.line = outline::BendLine::chain({{60, 0.01}, {20, 0}, {80, -0.02}});
    const Verdict verdict = judge_edge(job, 0.1);
    EXPECT_TRUE(verdict.limits.front().is_needed);
    EXPECT_THAT(verdict.because, HasSubstr("Wrinkling where the edge shrinks isn't judged"));
    job.blank.line = outline::BendLine::chain({{60, 0.01}, {20, 0}, {80, 0.02}});
    EXPECT_THAT(judge_edge(job, 0.1).because, testing::Not(HasSubstr("rinkl")));
}

TEST(Verdict, TakesTheWorstStepAndTheWorseOfNoseAndField) {
    const job::Job job = job_with(DataGrade::coupon);
    std::vector<PartFindings> steps(2);
    steps[0].edge_tension_used = std::log(1.25);
    steps[1].edge_tension_used = std::log(1.24);
    EXPECT_NEAR(judge(job, steps).share_used.value(), 1.25, 1e-9);
    EXPECT_NEAR(judge(job, steps).limits[1].reached, 1.0 / 7, 1e-12);
    steps[1].bend_strain_used = std::log(1.2);
    EXPECT_NEAR(judge(job, steps).limits[1].reached, 0.2, 1e-12);
    EXPECT_EQ(judge(job, {}).word, VerdictWord::holds);
}

TEST(Verdict, GivesTheGradeOfWhatGoverns) {
    job::Job job = job_with(DataGrade::coupon);
    job.sheet.material.bend_grade = DataGrade::typical;
    // Both hold: the worse grade of the two. The edge splits: its own.
    EXPECT_EQ(judge_edge(job, 0.05).grade, DataGrade::typical);
    EXPECT_EQ(judge_edge(job, 0.3).grade, DataGrade::coupon);
}

TEST(Verdict, ExplainsItselfInShortSentences) {
    EXPECT_EQ(
        judge_edge(job_with(DataGrade::typical), 0.165).because,
        "The free edge stretches by 16.5 %. This sheet bears 20.0 % (uniform elongation, typical "
        "data), so 82 % of the limit is used."
    );
}

// A bend table speaks of radii: so does the sentence, and a radius of nothing is a sharp bend.
TEST(Verdict, SpeaksOfTheBendTableAsItIsWritten) {
    job::Job job = job_with(DataGrade::published);
    job.sheet.material.bend_limits = {{1.6, 0}};
    EXPECT_EQ(
        judge_edge(job, 0, 0.326).because,
        "The outer fibre of the bend stretches by 32.6 %. The bend table allows a sharp bend, "
        "radius 0 (published data), so 30 % of the limit is used."
    );
    job.sheet.material.bend_limits = {{1.6, 1.5}};
    EXPECT_THAT(
        judge_edge(job, 0, 0.2).because,
        HasSubstr(
            "The bend table allows a radius of 1.5 times the thickness, which stretches it by up "
            "to 26.8 % (published data), so 75 % of the limit is used."
        )
    );
}

// The table's radius is allowed to the full, without a doubt before it; a sharper one is not.
TEST(Verdict, HasNoCloseBeforeTheTabulatedRadius) {
    job::Job job = job_with(DataGrade::published);
    job.sheet.material.bend_limits = {{job.sheet.thickness, 3}};
    job.block.nose_radius = 3 * job.sheet.thickness;
    EXPECT_EQ(judge_edge(job, 0, 0.99 * uneven_bend / 7).word, VerdictWord::holds);
    EXPECT_EQ(judge_edge(job, 0, 1.01 * uneven_bend / 7).word, VerdictWord::splits);
    job.sheet.material.bend_grade = DataGrade::typical;
    EXPECT_EQ(judge_edge(job, 0, 0.99 * uneven_bend / 7).word, VerdictWord::close);
}

TEST(ShareThatHolds, IsTheUsersTheTablesOrHalfOfWhatIsNotSure) {
    EXPECT_EQ(share_that_holds(edge_place, DataGrade::published, 0.8), 0.8);
    EXPECT_EQ(share_that_holds(bend_place, DataGrade::published, 0.8), 1);
    EXPECT_EQ(share_that_holds(lip_bend_place, DataGrade::coupon, 0.8), 1);
    EXPECT_EQ(share_that_holds(bend_place, DataGrade::typical, 0.8), 0.5);
    EXPECT_EQ(share_that_holds(edge_place, DataGrade::assumed, 0.3), 0.3);
}

TEST(RadiusOverThickness, UndoesTheStrainOfARadius) {
    const std::vector<material::BendLimit> rows{{0.8, 3}};
    EXPECT_NEAR(radius_over_thickness_of(*allowed_bend_strain(rows, 0.8)), 3, 1e-12);
    EXPECT_EQ(radius_over_thickness_of(uneven_bend), 0);
    EXPECT_EQ(radius_over_thickness_of(1.4), 0);
    EXPECT_TRUE(std::isinf(radius_over_thickness_of(0)));
}

// Source: 2024-T3 rows of the bend table, aluminum-design-manual-2005, Table 3-1 (4t at 1/16 in);
// strain by marciniak-duncan-hu-2002, t / (2 r + t).
TEST(AllowedBendStrain, IsThatOfTheTabulatedRadius) {
    const std::vector<material::BendLimit> rows{{0.8, 3}, {1.6, 4}, {3.2, 5}};
    EXPECT_NEAR(allowed_bend_strain(rows, 1.6).value(), uneven_bend / 9, 1e-12);
    EXPECT_NEAR(allowed_bend_strain(rows, 0.8).value(), uneven_bend / 7, 1e-12);
}

TEST(AllowedBendStrain, GoesToTheSafeSideBetweenRows) {
    const std::vector<material::BendLimit> rising{{0.8, 3}, {1.6, 4}};
    const std::vector<material::BendLimit> falling{{0.8, 2}, {1.6, 1}};
    EXPECT_NEAR(allowed_bend_strain(rising, 0.83).value(), uneven_bend / 9, 1e-12);
    EXPECT_NEAR(allowed_bend_strain(falling, 1.5).value(), uneven_bend / 5, 1e-12);
    EXPECT_NEAR(allowed_bend_strain(rising, 0.3).value(), uneven_bend / 7, 1e-12);
    EXPECT_FALSE(allowed_bend_strain(rising, 1.7).has_value());
    EXPECT_FALSE(allowed_bend_strain({}, 1).has_value());
}

// Source: common practice, no source: 0.032 in (0.8128 mm) is 1/32 in (0.79375 mm) sheet.
TEST(AllowedBendStrain, TakesADecimalGaugeForItsFraction) {
    const std::vector<material::BendLimit> rows{{0.79375, 3}, {1.5875, 4}};
    EXPECT_NEAR(allowed_bend_strain(rows, 0.8128).value(), uneven_bend / 7, 1e-12);
    EXPECT_NEAR(allowed_bend_strain(rows, 1.6256).value(), uneven_bend / 9, 1e-12); // .064 in
    EXPECT_FALSE(allowed_bend_strain(rows, 1.65).has_value());
}

TEST(AllowedBendStrain, IsOneBentUnevenlyWhereASharpBendIsAllowed) {
    const std::vector<material::BendLimit> rows{{0.8, 0}};
    EXPECT_EQ(allowed_bend_strain(rows, 0.8).value(), uneven_bend);
}

} // namespace
} // namespace flangewright::findings
