#include "solver/findings/edge_limit.hpp"
#include "solver/findings/verdict.hpp"
#include "tests/support/flange_job.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::findings {
namespace {

using material::DataGrade;
using material::EdgeFinish;

job::Job soft_job() {
    job::Job job = support::straight_job();
    job.sheet.material.uniform_elongation = {0.16, DataGrade::typical, "a table"};
    job.sheet.material.total_elongation = {0.20, DataGrade::typical, "a table"};
    job.sheet.material.bend_limits = {{0.5, 0}, {2, 0}};
    return job;
}

TEST(EdgeLimit, IsTheUniformElongationWhereNoFinishIsStated) {
    const EdgeLimit limit = edge_limit(soft_job().sheet.material, std::nullopt);
    EXPECT_EQ(limit.bears.value, 0.16);
    EXPECT_EQ(limit.bears.grade, DataGrade::typical);
    EXPECT_EQ(limit.what, "uniform elongation");
}

TEST(EdgeLimit, IsTheSheetsOwnForItsFinish) {
    job::Job job = soft_job();
    job.sheet.material.edge_limits[EdgeFinish::sawn] = {0.07, DataGrade::coupon, "my strips"};
    const EdgeLimit limit = edge_limit(job.sheet.material, EdgeFinish::sawn);
    EXPECT_EQ(limit.bears.value, 0.07);
    EXPECT_EQ(limit.bears.grade, DataGrade::coupon);
    EXPECT_EQ(limit.what, "a sawn edge");
}

TEST(EdgeLimit, IsAShareOfTheElongationWhereTheSheetSaysNothing) {
    const material::SheetMaterial sheet = soft_job().sheet.material;
    EXPECT_DOUBLE_EQ(*edge_limit(sheet, EdgeFinish::snipped).bears.value, 0.10);
    EXPECT_DOUBLE_EQ(*edge_limit(sheet, EdgeFinish::polished).bears.value, 0.16);
    EXPECT_EQ(edge_limit(sheet, EdgeFinish::snipped).bears.grade, DataGrade::assumed);
    EXPECT_FALSE(edge_limit({}, EdgeFinish::snipped).bears.value.has_value());
}

// 9 % is within what a filed edge bears and beyond half of what a snipped one does.
TEST(EdgeLimit, OfTheFinishIsWhatTheVerdictWeighs) {
    job::Job job = soft_job();
    std::vector<PartFindings> steps(1);
    steps[0].edge_tension_most = steps[0].edge_tension_used = std::log(1.09);
    job.blank.edge_finish = EdgeFinish::filed;
    EXPECT_NEAR(*judge(job, steps).limits.front().share, 0.09 / 0.16, 1e-9);
    job.blank.edge_finish = EdgeFinish::snipped;
    const Verdict snipped = judge(job, steps);
    EXPECT_NEAR(*snipped.limits.front().share, 0.09 / 0.10, 1e-9);
    EXPECT_NE(snipped.because.find("A snipped edge of this sheet bears 10.0 %"), std::string::npos)
        << snipped.because;
}

// Formed with a snipped edge, trimmed to a polished one, bent on: each stage against its own.
TEST(EdgeLimit, ChangesWithTheTrim) {
    job::Job job = soft_job();
    job.steps = {job::StepKind::bend_down, job::StepKind::release, job::StepKind::trim};
    job.blank.edge_finish = EdgeFinish::snipped;
    job.trimmed_edge_finish = EdgeFinish::polished;
    std::vector<PartFindings> steps(3);
    steps[0].edge_tension_used = std::log(1.06);
    steps[1].edge_tension_used = std::log(1.06);
    steps[2].edge_tension_used = std::log(1.08);
    const LimitUse as_cut_governs = judge(job, steps).limits.front();
    EXPECT_NEAR(*as_cut_governs.share, 0.6, 1e-9);
    EXPECT_EQ(as_cut_governs.limit_of, "a snipped edge");
    steps[2].edge_tension_used = std::log(1.12);
    const LimitUse trimmed_governs = judge(job, steps).limits.front();
    EXPECT_NEAR(*trimmed_governs.share, 0.75, 1e-9);
    EXPECT_EQ(trimmed_governs.limit_of, "a polished edge");
}

} // namespace
} // namespace flangewright::findings
