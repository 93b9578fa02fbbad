// Bands of what varies: each part is the difference of two solves, the total their root of squares.
#include "solver/material/scaled_hardening.hpp"
#include "solver/process/run_job.hpp"
#include "solver/process/scatter.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;

job::Job slice() {
    job::Job job =
        support::small_flange(BendLine::straight(1), EndKind::continues, EndKind::continues);
    job.accuracy = job::Accuracy::quick;
    return job;
}

double springback_of(const job::Job& job) {
    const auto run = run_job(job, {.n_threads = 1, .measure_bare_refactor = false}, {});
    return run->steps.back().findings.springback_middle->mean;
}

TEST(Scatter, PartsAreDifferencesOfSolves) {
    job::Job job = slice();
    job.scatter = job::Scatter{
        .thickness = 0, .yield_stress = 0.2, .hardening = 0, .nose_radius = 0.1, .friction = 0};
    int n_told = 0;
    Monitor monitor;
    monitor.on_progress = [&n_told](const Progress& progress) {
        EXPECT_EQ(progress.step, "scatter");
        ++n_told;
    };
    const std::optional<ScatterBand> band = estimate_scatter(job, 2, monitor);
    ASSERT_TRUE(band.has_value());
    EXPECT_EQ(n_told, 4); // at the beginning, and after each of three solves
    ASSERT_EQ(band->parts.size(), 2U); // what does not vary costs no solve
    EXPECT_EQ(band->parts[0].what, "yield stress");
    EXPECT_EQ(band->parts[0].band, "20 %");
    EXPECT_GT(band->parts[0].moves.springback, 0); // a harder sheet springs back more
    job::Job harder = slice();
    harder.sheet.material.hardening =
        material::scaled_hardening(harder.sheet.material.hardening, 1.2, 1);
    EXPECT_NEAR(
        band->parts[0].moves.springback, springback_of(harder) - springback_of(slice()), 1e-9
    );
    job::Job larger = slice();
    larger.block.nose_radius *= 1.1;
    EXPECT_NEAR(
        band->parts[1].moves.springback, springback_of(larger) - springback_of(slice()), 1e-9
    );
    EXPECT_NEAR(
        band->total.springback,
        std::hypot(band->parts[0].moves.springback, band->parts[1].moves.springback),
        1e-12
    );
}

TEST(Scatter, IsThatOfBlockAndReleaseWhateverFollows) {
    job::Job job = slice();
    job.blank.trim_allowance = 2;
    job.scatter = job::Scatter{
        .thickness = 0, .yield_stress = 0.2, .hardening = 0, .nose_radius = 0, .friction = 0};
    const std::optional<ScatterBand> plain = estimate_scatter(job, 2, {});
    job.steps.push_back(job::StepKind::trim);
    const std::optional<ScatterBand> trimmed = estimate_scatter(job, 2, {});
    ASSERT_TRUE(plain && trimmed);
    EXPECT_GT(plain->total.springback, 0);
    EXPECT_EQ(trimmed->total.springback, plain->total.springback);
}

TEST(Scatter, AThickerSheetFillsMoreOfTheSameGap) {
    job::Job job = slice();
    job.scatter = job::Scatter{
        .thickness = 0.1, .yield_stress = 0, .hardening = 0, .nose_radius = 0, .friction = 0};
    const std::optional<ScatterBand> band = estimate_scatter(job, 2, {});
    ASSERT_TRUE(band.has_value());
    job::Job thicker = slice();
    thicker.sheet.thickness = 1.1;
    thicker.drive.clearance = 1.4 / 1.1;
    EXPECT_NEAR(
        band->parts[0].moves.springback, springback_of(thicker) - springback_of(slice()), 1e-9
    );
    EXPECT_LT(band->parts[0].moves.springback, 0);
}

// Perfect flow but for a back stress: all the rise of its tensile curve is the back stress.
TEST(Scatter, CountsBackStressesToTheRise) {
    job::Job job = slice();
    job.sheet.material.hardening = std::make_shared<support::PerfectFlow>(100);
    job.sheet.material.back_stresses = {{9000, 150}};
    job::Job steeper = job;
    steeper.sheet.material.back_stresses = {{9000 * 1.2, 150}};
    const double expected = springback_of(steeper) - springback_of(job);
    job.scatter = job::Scatter{
        .thickness = 0, .yield_stress = 0, .hardening = 0.2, .nose_radius = 0, .friction = 0};
    const std::optional<ScatterBand> band = estimate_scatter(job, 2, {});
    ASSERT_TRUE(band.has_value());
    EXPECT_NEAR(band->parts[0].moves.springback, expected, 1e-9);
    EXPECT_GT(expected, 1e-4);
}

TEST(Scatter, OfFrictionIsOfTheCoefficientItself) {
    job::Job job = slice();
    job.block.friction = 0.02;
    job.scatter = {
        .thickness = 0, .yield_stress = 0, .hardening = 0, .nose_radius = 0, .friction = 0.1};
    const std::optional<ScatterBand> band = estimate_scatter(job, 2, {});
    ASSERT_TRUE(band.has_value());
    EXPECT_EQ(band->parts.at(0).band, "0.1");
    job::Job dry = slice();
    dry.block.friction += 0.02 + 0.1;
    job.scatter.reset();
    EXPECT_NEAR(band->parts[0].moves.springback, springback_of(dry) - springback_of(job), 1e-9);
    EXPECT_NE(band->parts[0].moves.springback, 0);
}

TEST(Scatter, ComesWithTheRunOnlyWhenAskedFor) {
    job::Job job = slice();
    const RunOptions options{.n_threads = 1, .measure_bare_refactor = false};
    EXPECT_FALSE(run_job(job, options, {})->scatter.has_value());
    job.scatter = job::Scatter{};
    const auto run = run_job(job, options, {});
    ASSERT_TRUE(run->scatter.has_value());
    EXPECT_EQ(run->scatter->parts.size(), 5U);
    EXPECT_TRUE(run->warnings.empty());
}

TEST(Scatter, IsLeftOutWhenStopped) {
    std::stop_source source;
    source.request_stop();
    Monitor monitor;
    monitor.stop = source.get_token();
    EXPECT_FALSE(estimate_scatter(slice(), 2, monitor).has_value());
}

} // namespace
} // namespace flangewright::process
