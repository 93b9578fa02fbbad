// Chance of splitting of a job: which limits and moves go into it, and when it is not given.
#include "solver/process/run_job.hpp"
#include "solver/process/split_chance.hpp"
#include "tests/support/small_flange.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::process {
namespace {

using testing::HasSubstr;

findings::LimitUse limit(const char* place, double share, bool is_cut_edge) {
    findings::LimitUse use;
    use.place = place;
    use.share = share;
    use.is_cut_edge = is_cut_edge;
    return use;
}

ScatterBand band_of(double edge, double bend) {
    ScatterBand band;
    band.places = {"free edge", "outer fibre of the bend"};
    band.parts = {{"nose radius", "5 %", {}, {edge, bend}}};
    return band;
}

job::Job job_with_edge_band(double band) {
    job::Job job;
    job.scatter = job::Scatter{};
    job.scatter->edge_limit = band;
    return job;
}

TEST(SplitChance, TakesTheRunsShareAndTheMovesOfItsPlace) {
    findings::Verdict verdict;
    verdict.limits = {limit("outer fibre of the bend", 0.5, false), limit("free edge", 0.8, true)};
    const findings::Chance chance =
        chance_of_job(job_with_edge_band(0.4), verdict, band_of(0.3, 0.1));
    EXPECT_EQ(chance.place, "free edge");
    EXPECT_EQ(chance.share, 0.8);
    EXPECT_NEAR(chance.deviation, 0.8 * 0.25, 1e-12); // of 30 % and 40 %, halved
}

// Too thin for the drawing is no split, and no scatter of it is needed.
TEST(SplitChance, LeavesTheDrawingsThicknessOut) {
    findings::Verdict verdict;
    verdict.limits = {limit("free edge", 0.8, true), limit("thickness", 1.5, false)};
    const findings::Chance chance =
        chance_of_job(job_with_edge_band(0.4), verdict, band_of(0.3, 0.1));
    ASSERT_TRUE(chance.first_order.has_value());
    EXPECT_EQ(chance.place, "free edge");
}

TEST(SplitChance, ABendTableDoesNotVaryWithEdges) {
    findings::Verdict verdict;
    verdict.limits = {limit("outer fibre of the bend", 0.5, false)};
    const findings::Chance chance =
        chance_of_job(job_with_edge_band(0.2), verdict, band_of(0.3, 0.1));
    EXPECT_NEAR(chance.deviation, 0.5 * 0.05, 1e-12);
}

TEST(SplitChance, IsNotGivenWhereALimitIsNotKnownAndSaysWhich) {
    findings::Verdict verdict;
    verdict.limits = {limit("free edge", 0.8, true), limit("outer fibre of the bend", 0, false)};
    verdict.limits[1].share.reset();
    const job::Job job = job_with_edge_band(0.2);
    findings::Chance chance = chance_of_job(job, verdict, band_of(0.3, 0.1));
    EXPECT_FALSE(chance.first_order.has_value());
    EXPECT_EQ(chance.why_not, "What the outer fibre of the bend bears is not known.");
    verdict.limits[1].is_needed = false; // then it does not matter
    chance = chance_of_job(job, verdict, band_of(0.3, 0.1));
    EXPECT_TRUE(chance.first_order.has_value());
}

TEST(SplitChance, IsNotGivenForWhatTheScatterDoesNotReach) {
    findings::Verdict verdict;
    verdict.limits = {limit("rim of hole 1", 0.8, true)};
    job::Job job = job_with_edge_band(0.2);
    EXPECT_THAT(chance_of_job(job, verdict, band_of(0.3, 0.1)).why_not, HasSubstr("rim of hole 1"));
    verdict.limits = {limit("free edge", 0.8, true)};
    job.steps.push_back(job::StepKind::return_bend);
    EXPECT_THAT(chance_of_job(job, verdict, band_of(0.3, 0.1)).why_not, HasSubstr("lip"));
}

// Nose 3, sheet 1: the outer fibre stretches by 1 / (2 x 3 + 1) at least, and a nose larger by a
// tenth takes it to 1 / (2 x 3.3 + 1).
TEST(SplitChance, OfARunHasTheMovesOfItsSolves) {
    job::Job job = support::small_flange(
        outline::BendLine::arc(60, 0.03, outline::Curve::concave),
        job::EndKind::continues,
        job::EndKind::continues
    );
    job.accuracy = job::Accuracy::quick;
    job.sheet.material.uniform_elongation.value = 0.2;
    job.sheet.material.bend_limits = {{1, 1.5}};
    job.scatter = job::Scatter{
        .thickness = 0,
        .yield_stress = 0,
        .hardening = 0,
        .nose_radius = 0.1,
        .friction = 0,
        .edge_limit = 0.2};
    const auto run =
        run_job(job, {.n_threads = 1, .n_frames = 0, .measure_bare_refactor = false}, {});
    ASSERT_TRUE(run->scatter && run->chance);
    ASSERT_THAT(
        run->scatter->places,
        testing::ElementsAre(
            "free edge", "outer fibre of the bend", "sheet away from edges and bends"
        )
    );
    ASSERT_EQ(run->scatter->parts.at(0).reached.size(), 3U);
    job::Job larger = job;
    larger.block.nose_radius *= 1.1;
    larger.scatter.reset();
    const auto moved =
        run_job(larger, {.n_threads = 1, .n_frames = 0, .measure_bare_refactor = false}, {});
    for (std::size_t i = 0; i < 2; ++i) {
        const double ratio =
            moved->verdict.limits.at(i).reached / run->verdict.limits.at(i).reached;
        EXPECT_NEAR(run->scatter->parts[0].reached[i], ratio - 1, 1e-9);
        EXPECT_NE(ratio, 1);
    }
    // Of a neck the share counts: the strain at which the sheet necks moves as well.
    const double share_ratio =
        *moved->verdict.limits.at(2).share / *run->verdict.limits.at(2).share;
    EXPECT_NEAR(run->scatter->parts[0].reached[2], share_ratio - 1, 1e-9);
    EXPECT_TRUE(run->chance->first_order.has_value());
}

} // namespace
} // namespace flangewright::process
