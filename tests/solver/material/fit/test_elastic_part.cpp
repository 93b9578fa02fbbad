#include "solver/material/fit/elastic_part.hpp"
#include "tests/solver/material/fit/made_test.hpp"

namespace flangewright::material {
namespace {

// Engineering stress over engineering strain bends as E e (1 - 1.5 e): up to half the proof stress,
// e = 0.06 %, its slope is low by 3 e at most (derived here).
constexpr double bend = 3 * 0.0006;

const MadeStrip plain{.law = "voce", .values = voce_values};

ElasticPart part_of(const MadeStrip& strip, std::optional<double> given = std::nullopt) {
    const auto part = elastic_part(made_test(strip), given);
    EXPECT_TRUE(part.has_value()) << (part ? "" : part.error().found);
    return part.value_or(ElasticPart{});
}

TEST(ElasticPart, IsFittedWhereTheRecordResolvesIt) {
    const ElasticPart part = part_of(plain);
    EXPECT_EQ(part.origin, ModulusOrigin::fitted);
    EXPECT_GE(part.n_points, 5U);
    EXPECT_NEAR(part.modulus, 70'000, bend * 70'000);
    EXPECT_DOUBLE_EQ(part.slope, part.modulus);
}

TEST(ElasticPart, IsAssumedWhereTheRecordIsTooCoarse) {
    MadeStrip coarse = plain;
    coarse.n_elastic = 3;
    const ElasticPart part = part_of(coarse);
    EXPECT_EQ(part.origin, ModulusOrigin::assumed);
    EXPECT_EQ(part.n_points, 0U);
    EXPECT_DOUBLE_EQ(part.modulus, assumed_modulus);
    EXPECT_DOUBLE_EQ(part_of(coarse, 73'100).modulus, 73'100);
    EXPECT_EQ(part_of(coarse, 73'100).origin, ModulusOrigin::given);
}

// A crosshead's travel holds the machine's give: a start of 10 GPa. It must be taken off the
// plastic strain, and is no modulus. The strip counts as longer by 1 %, its stress as lower by
// that.
TEST(ElasticPart, TakesTheMachinesGiveForNoModulus) {
    MadeStrip soft = plain;
    soft.modulus = 10'000;
    const ElasticPart part = part_of(soft);
    EXPECT_EQ(part.origin, ModulusOrigin::assumed);
    EXPECT_NEAR(part.slope, 10'000, 200);
    EXPECT_DOUBLE_EQ(part.modulus, assumed_modulus);
    EXPECT_NEAR(part.proof_stress / part_of(plain).proof_stress, 1, 0.01);
}

TEST(ElasticPart, PassesOverAStripThatHangsLooseAtFirst) {
    MadeStrip later = plain;
    later.first_strain = 0.01;
    TensileTest loose;
    for (int i = 0; i < 30; ++i) {
        loose.strain.push_back(0.01 * i / 30);
        loose.stress.push_back(0.02 * (i % 3));
    }
    const TensileTest tight = made_test(later);
    loose.strain.insert(loose.strain.end(), tight.strain.begin(), tight.strain.end());
    loose.stress.insert(loose.stress.end(), tight.stress.begin(), tight.stress.end());
    const auto part = elastic_part(loose, std::nullopt);
    ASSERT_TRUE(part.has_value());
    EXPECT_NEAR(part->first_strain, 0.01, 1e-5);
    EXPECT_NEAR(part->proof_stress, part_of(plain).proof_stress, 0.1);
}

// Many points with more noise from one to the next than rise: slopes of neighbours mean nothing.
TEST(ElasticPart, IsFittedThroughDenseNoise) {
    MadeStrip dense = plain;
    dense.n_elastic = 1500;
    dense.n_plastic = 15'000;
    dense.stress_noise = 0.5;
    dense.strain_noise = 1e-5;
    const ElasticPart part = part_of(dense);
    EXPECT_EQ(part.origin, ModulusOrigin::fitted);
    EXPECT_LT(part.slope_error, 0.005 * 70'000);
    EXPECT_NEAR(part.modulus, 70'000, 4 * part.slope_error + bend * 70'000);
    EXPECT_NEAR(part.proof_stress, part_of(plain).proof_stress, 1);
}

TEST(ElasticPart, RefusesARecordThatNeverYields) {
    TensileTest test;
    for (int i = 0; i < 50; ++i) {
        test.strain.push_back(1e-4 * i);
        test.stress.push_back(7.0 * i);
    }
    EXPECT_FALSE(elastic_part(test, std::nullopt).has_value());
}

TEST(ElasticPart, RefusesAStartStifferThanAnyMetal) {
    MadeStrip stiff = plain;
    stiff.modulus = 1e6;
    EXPECT_FALSE(elastic_part(made_test(stiff), std::nullopt).has_value());
}

} // namespace
} // namespace flangewright::material
