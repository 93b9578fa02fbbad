#include "io/build_log/edge_witness.hpp"

#include <gmock/gmock.h>

namespace flangewright::build_log {
namespace {

using ::testing::HasSubstr;

job::Job job_with_trim() {
    job::Job job;
    job.steps = {job::StepKind::bend_down, job::StepKind::release, job::StepKind::trim};
    return job;
}

Reading pair(double stretch, bool is_cracked = false, std::size_t step = 1) {
    Reading row;
    row.step = step;
    row.station = 40;
    row.before = 20;
    row.after = 20 * (1 + stretch);
    row.is_cracked = is_cracked;
    return row;
}

EdgeWitness witness(const std::vector<Reading>& rows, std::optional<double> known) {
    return edge_witness({rows, {}}, job_with_trim(), known);
}

// Holding within the limit is what the limit says anyway.
TEST(EdgeWitness, SurvivalWithinTheLimitSaysNothing) {
    const EdgeWitness seen = witness({pair(0.05), pair(0.08), pair(0.11)}, 0.12);
    EXPECT_FALSE(seen.says_something);
    EXPECT_THAT(seen.because, HasSubstr("does not say how much more it would bear"));
}

TEST(EdgeWitness, SurvivalBeyondTheLimitRaisesItOnlyBeyondAReadingsError) {
    const EdgeWitness seen = witness({pair(0.05), pair(0.08), pair(0.14)}, 0.12);
    EXPECT_TRUE(seen.says_something);
    EXPECT_NEAR(seen.stretch, 0.14, 1e-12);
    EXPECT_FALSE(seen.cracked);
    // 0.1 mm on 20 mm is half a per cent.
    EXPECT_FALSE(witness({pair(0.05), pair(0.08), pair(0.124)}, 0.12).says_something);
}

TEST(EdgeWitness, ACrackBelowTheLimitLowersItToWhatWasBorneBelow) {
    const EdgeWitness seen = witness({pair(0.06), pair(0.08), pair(0.10, true), pair(0.11)}, 0.12);
    EXPECT_TRUE(seen.says_something);
    EXPECT_NEAR(seen.stretch, 0.08, 1e-12) << "a whole pair beyond the crack is scatter";
    EXPECT_NEAR(*seen.cracked, 0.10, 1e-12);
}

TEST(EdgeWitness, ACrackAboveTheLimitAgreesWithIt) {
    EXPECT_FALSE(witness({pair(0.06), pair(0.11), pair(0.14, true)}, 0.12).says_something);
}

TEST(EdgeWitness, OnlyTheEdgeAsCutCountsAndThreePairsAtLeast) {
    const EdgeWitness seen = witness({pair(0.2), pair(0.2), pair(0.2, false, 2)}, 0.12);
    EXPECT_EQ(seen.n_pairs, 2);
    EXPECT_FALSE(seen.says_something);
    EXPECT_THAT(seen.because, HasSubstr("Only 2 pairs"));
    EXPECT_FALSE(witness({pair(0.2, true), pair(0.2, true), pair(0.2, true)}, 0.12).says_something);
}

TEST(EdgeWitness, AnyBracketIsNewsWhereNothingWasKnown) {
    EXPECT_TRUE(witness({pair(0.05), pair(0.08), pair(0.11)}, std::nullopt).says_something);
    EXPECT_FALSE(witness({pair(0.0), pair(0.001), pair(0.002)}, std::nullopt).says_something);
}

} // namespace
} // namespace flangewright::build_log
