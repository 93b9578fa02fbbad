#include "solver/findings/lip_advice.hpp"
#include "tests/support/flange_job.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::findings {
namespace {

using material::DataGrade;
using ::testing::HasSubstr;
using ::testing::Not;

/// Overwide flange, then the lip; engineering stretch of the edge.
std::vector<PartFindings> steps_with(double from_flat, double since_soft) {
    PartFindings flange;
    flange.edge_tension_most = std::log1p(0.5); // not the lip's
    flange.edge_tension_used = std::log1p(0.5);
    PartFindings lip;
    lip.lip = LipFindings{};
    lip.edge_tension_most = std::log1p(from_flat);
    lip.edge_tension_used = std::log1p(since_soft);
    return {flange, lip};
}

Verdict verdict_on_edge() {
    Verdict verdict;
    verdict.limits.emplace_back().place = "free edge";
    return verdict;
}

std::string advice(double from_flat, double since_soft, DataGrade grade = DataGrade::coupon) {
    Verdict verdict = verdict_on_edge();
    verdict.limits.front().allowed = 0.2;
    verdict.limits.front().grade = grade;
    return lip_advice(support::straight_job(), steps_with(from_flat, since_soft), verdict)
        .value_or("nothing");
}

TEST(LipAdvice, SaysWhetherTheLipCanFollow) {
    EXPECT_THAT(advice(0.1, 0.1), HasSubstr("can follow without an anneal"));
    EXPECT_THAT(advice(0.1, 0.1), HasSubstr("10.0 % from flat, 50 % of what this sheet bears"));
    EXPECT_THAT(advice(0.17, 0.17), HasSubstr("Anneal before the lip"));
    EXPECT_THAT(advice(0.21, 0.21), HasSubstr("can't follow"));
}

TEST(LipAdvice, IsCarefulWithLimitsThatAreNotSure) {
    EXPECT_THAT(advice(0.11, 0.11, DataGrade::assumed), HasSubstr("Anneal before the lip"));
    EXPECT_THAT(advice(0.11, 0.11, DataGrade::published), HasSubstr("can follow"));
}

TEST(LipAdvice, TellsWhatAnAnnealLeft) {
    EXPECT_THAT(advice(0.21, 0.05), HasSubstr("Since the anneal it takes 5.0 %, 25 %."));
    EXPECT_THAT(advice(0.21, 0.21), Not(HasSubstr("Since the anneal")));
}

TEST(LipAdvice, NeedsALipAndALimit) {
    const Verdict unknown = verdict_on_edge();
    const auto said = lip_advice(support::straight_job(), steps_with(0.1, 0.1), unknown);
    ASSERT_TRUE(said);
    EXPECT_THAT(*said, HasSubstr("not known"));
    EXPECT_FALSE(lip_advice(support::straight_job(), std::vector<PartFindings>(2), unknown));
}

} // namespace
} // namespace flangewright::findings
