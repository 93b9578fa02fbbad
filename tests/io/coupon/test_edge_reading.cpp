#include "io/coupon/edge_reading.hpp"
#include "tests/io/coupon/measured_text.hpp"

#include <gmock/gmock.h>

namespace flangewright::coupon {
namespace {

using ::testing::HasSubstr;

constexpr double rounding = 1e-12;

std::vector<PairReading> pairs_of(const std::string& rows) {
    const auto pairs = measured_from(
        "mark_from,mark_to,before_mm,after_mm,thickness_mm,cracked\n" + rows, "m.csv"
    );
    EXPECT_TRUE(pairs.has_value());
    return pairs.value_or(std::vector<PairReading>{});
}

std::string problem_of(const std::string& rows, std::optional<double> thickness = {}) {
    const auto reading = edge_reading(pairs_of(rows), thickness, "m.csv");
    return reading ? "none" : key_file::line_for(reading.error());
}

TEST(EdgeReading, CountsWhatWasBorneBelowTheFirstCrack) {
    const auto reading = edge_reading(measured_from(measured_text, "m.csv").value(), 0.81, "m.csv");
    ASSERT_TRUE(reading.has_value());
    EXPECT_NEAR(reading->borne.stretch(), 0.14, rounding);
    EXPECT_EQ(reading->borne.mark_from, 14);
    ASSERT_TRUE(reading->cracked.has_value());
    EXPECT_NEAR(reading->cracked->stretch(), 0.16, rounding);
    ASSERT_EQ(reading->borne_beyond.size(), 1U); // 17 % held elsewhere: told, not counted
    EXPECT_NEAR(reading->borne_beyond.front().stretch(), 0.17, rounding);
    EXPECT_EQ(reading->shortest_gauge, 20);
    EXPECT_TRUE(reading->questions.empty());
}

TEST(EdgeReading, DoesNotCountAWholePairAtTheStretchThatCrackedAnother) {
    const auto reading =
        edge_reading(pairs_of("1,2,10,11,,no\n2,3,10,12,,no\n3,4,10,12,,yes\n"), {}, "m.csv");
    ASSERT_TRUE(reading.has_value());
    EXPECT_NEAR(reading->borne.stretch(), 0.1, rounding);
}

TEST(EdgeReading, TakesTheLargestWhereNothingCracked) {
    const auto reading =
        edge_reading(pairs_of("1,2,10,11,,no\n2,3,10,12,,no\n3,4,10,11.5,,no\n"), {}, "m.csv");
    ASSERT_TRUE(reading.has_value());
    EXPECT_NEAR(reading->borne.stretch(), 0.2, rounding);
    EXPECT_FALSE(reading->cracked.has_value());
}

// 0.8 mm stretched by 10 % in uniaxial tension: 0.8 / sqrt(1.1) = 0.763 mm for r = 1; for r of 0.5
// and 2 the powers -2/3 and -1/3 give 0.751 and 0.775 mm.
TEST(EdgeReading, QuestionsAThicknessFarFromTheStretch) {
    const auto around = [](const char* thickness) {
        const std::string row = std::string("1,2,10,11,") + thickness + ",no\n";
        return edge_reading(pairs_of(row + "2,3,10,11,,no\n3,4,10,11,,no\n"), 0.8, "m.csv");
    };
    EXPECT_TRUE(around("0.735")->questions.empty());
    EXPECT_TRUE(around("0.763")->questions.empty());
    EXPECT_TRUE(around("0.79")->questions.empty());
    ASSERT_EQ(around("0.72")->questions.size(), 1U);
    EXPECT_EQ(around("0.80")->questions.size(), 1U);
    constexpr double digits = 5e-4; // of the figures above
    EXPECT_NEAR(around("0.72")->questions.front().least, 0.751 - 0.02, digits);
    EXPECT_NEAR(around("0.72")->questions.front().most, 0.775 + 0.02, digits);
}

TEST(EdgeReading, RefusesWhatTellsNoLimit) {
    EXPECT_THAT(problem_of("1,2,10,11,,no\n2,3,10,11,,no\n"), HasSubstr("found 2 pairs of marks"));
    EXPECT_THAT(
        problem_of("1,2,10,12,,no\n2,3,10,11,,yes\n3,4,10,13,,no\n"),
        HasSubstr("m.csv:3: cracked: found a crack at 10.0 % and no whole pair")
    );
    EXPECT_THAT(
        problem_of("1,2,10,10,,no\n2,3,10,10.01,,no\n3,4,10,9,,no\n"),
        HasSubstr("m.csv:3: after: found 0.10 % as the largest stretch borne, allowed 0.5 %")
    );
    EXPECT_THAT(
        problem_of("1,2,10,11,0.7,no\n2,3,10,11,,no\n3,4,10,11,,no\n"),
        HasSubstr("command line: --thickness: found nothing")
    );
    EXPECT_THAT(
        problem_of("1,2,10,11,0.03,no\n2,3,10,11,,no\n3,4,10,11,,no\n", 0.8),
        HasSubstr("m.csv:2: thickness: found 0.03 mm of a sheet of 0.8 mm")
    );
}

} // namespace
} // namespace flangewright::coupon
