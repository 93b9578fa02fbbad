#include "solver/findings/disagreements.hpp"
#include "tests/support/flange_job.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace flangewright::findings {
namespace {

using support::degree;
using testing::HasSubstr;

HandCalculation by_hand() {
    HandCalculation hand;
    hand.edge_strain = 0.15;
    hand.bend_strain = 0.12;
    hand.springback = 3 * degree;
    return hand;
}

PartFindings agreeing() {
    PartFindings part;
    part.edge_strain_most = 0.15;
    part.bend_strain_most = 0.12;
    part.springback_middle = Spread{3 * degree, 3 * degree, 3 * degree};
    return part;
}

std::vector<Disagreement> found(const PartFindings& part, const job::Job& job) {
    return find_disagreements(job, by_hand(), std::span(&part, 1));
}

TEST(Disagreements, AreNoneWithinAThird) {
    PartFindings part = agreeing();
    EXPECT_TRUE(found(part, support::ring_job()).empty());
    part.edge_strain_most = 0.15 * 0.67;
    part.bend_strain_most = 0.12 * 1.33;
    part.springback_middle->mean = 3 * degree * 0.67;
    EXPECT_TRUE(found(part, support::ring_job()).empty());
    EXPECT_TRUE(find_disagreements(support::ring_job(), by_hand(), {}).empty());
}

TEST(Disagreements, AreSaidBeyondAThird) {
    PartFindings part = agreeing();
    part.edge_strain_most = 0.15 * 0.66;
    part.bend_strain_most = 0.12 * 1.34;
    part.springback_middle->mean = 3 * degree * 1.34;
    const std::vector<Disagreement> said = found(part, support::ring_job());
    ASSERT_EQ(said.size(), 3U);
    EXPECT_EQ(said[0].figure, "edge stretch");
    EXPECT_EQ(said[0].computed, 0.15 * 0.66);
    EXPECT_EQ(said[0].by_hand, 0.15);
    EXPECT_THAT(said[0].sentence, HasSubstr("Edge stretch: 10.4 % computed, 16.2 % by hand, more"));
    EXPECT_THAT(said[0].sentence, HasSubstr("free ends"));
    EXPECT_THAT(said[1].sentence, HasSubstr("tighter than the nose"));
    EXPECT_THAT(said[2].sentence, HasSubstr("Springback: 4.0 deg computed, 3.0 deg by hand, more"));
    EXPECT_THAT(said[2].sentence, HasSubstr("bows"));
}

// A mechanic reads these at the bench: the figures in one sentence, what to look at in another.
TEST(Disagreements, TakeTwoShortSentencesEach) {
    constexpr std::size_t longest = 180;
    for (const double factor : {0.4, 1.6}) {
        for (job::Job job : {support::ring_job(), support::straight_job()}) {
            PartFindings part = agreeing();
            part.edge_strain_most *= factor;
            part.bend_strain_most *= factor;
            part.springback_middle->mean *= factor;
            for (const Disagreement& said : found(part, job)) {
                EXPECT_LE(said.sentence.size(), longest) << said.sentence;
                EXPECT_EQ(said.sentence.find(". "), said.sentence.rfind(". ")) << said.sentence;
                EXPECT_EQ(said.sentence.back(), '.');
            }
        }
    }
}

TEST(Disagreements, GiveTheReasonForTheOtherDirection) {
    PartFindings part = agreeing();
    part.springback_middle->mean = 1.5 * degree;
    job::Job job = support::ring_job();
    ASSERT_EQ(found(part, job).size(), 1U);
    EXPECT_THAT(found(part, job)[0].sentence, HasSubstr("The wiper"));
    job.drive.kind = job::DriveKind::leaf;
    EXPECT_THAT(found(part, job)[0].sentence, Not(HasSubstr("iper")));
    part = agreeing();
    part.edge_strain_most = 0.25;
    EXPECT_THAT(found(part, job)[0].sentence, HasSubstr("bunched"));
    part.edge_strain_most = 0.05;
    job.blank.start = job.blank.end = job::EndKind::continues;
    EXPECT_THAT(found(part, job)[0].sentence, Not(HasSubstr("free ends")));
}

TEST(Disagreements, PassOverWhatDoesNotMatterOnTheBench) {
    HandCalculation hand = by_hand();
    hand.edge_strain = 0;
    PartFindings part = agreeing();
    part.edge_strain_most = 0.004;
    job::Job job = support::straight_job();
    EXPECT_TRUE(find_disagreements(job, hand, std::span(&part, 1)).empty());
    part.edge_strain_most = -0.006;
    const auto said = find_disagreements(job, hand, std::span(&part, 1));
    ASSERT_EQ(said.size(), 1U);
    EXPECT_THAT(said[0].sentence, HasSubstr("straight flange"));
}

TEST(Disagreements, SayNothingOfAHandCalculationThatDoesNotExist) {
    HandCalculation hand = by_hand();
    hand.edge_strain = std::numeric_limits<double>::infinity();
    const PartFindings part = agreeing();
    EXPECT_TRUE(find_disagreements(support::ring_job(), hand, std::span(&part, 1)).empty());
}

// By hand a bevel is as large as it gets; half-way down it would agree.
TEST(Disagreements, OfSpringbackOnABevelMayBeTheBevels) {
    job::Job job = support::straight_job();
    job.block.wall_angles = outline::Profile({{0, 20 * degree}, {60, 90 * degree}});
    PartFindings part = agreeing();
    part.springback_middle->mean = 3 * degree * 0.6;
    ASSERT_EQ(found(part, job).size(), 1U);
    EXPECT_THAT(found(part, job)[0].sentence, HasSubstr("largest of the wall's angles"));
    part.springback_middle->mean = 3 * degree * 0.3; // not by that
    ASSERT_EQ(found(part, job).size(), 1U);
    EXPECT_THAT(
        found(part, job)[0].sentence, testing::Not(HasSubstr("largest of the wall's angles"))
    );
}

} // namespace
} // namespace flangewright::findings
