#include "io/tables/chance_words.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::tables {
namespace {

using testing::HasSubstr;
using testing::Not;

TEST(ChanceWords, RoundToWhatTheBandsCarry) {
    EXPECT_EQ(of_a_hundred(0), "fewer than 1");
    EXPECT_EQ(of_a_hundred(0.0099), "fewer than 1");
    EXPECT_EQ(of_a_hundred(0.012), "about 1");
    EXPECT_EQ(of_a_hundred(0.066), "about 7");
    EXPECT_EQ(of_a_hundred(0.133), "about 15");
    EXPECT_EQ(of_a_hundred(0.52), "about 50");
    EXPECT_EQ(of_a_hundred(0.934), "about 93");
    EXPECT_EQ(of_a_hundred(0.991), "more than 99");
}

TEST(ChanceWords, SayTheNumberWhatItRestsOnAndWhatItIsNot) {
    const findings::Chance chance{0.068, 0.075, "free edge", 0.85, 0.1, ""};
    EXPECT_EQ(
        chance_sentence(chance),
        "Of 100 such parts about 7 would split, if sheet, tools, friction and edge scatter as "
        "stated (each band taken as two standard deviations). The free edge decides: 85 % of its "
        "limit is used, give or take 10 (one standard deviation)."
    );
    EXPECT_THAT(chance_caution(chance), HasSubstr("no safety factor"));
    EXPECT_THAT(chance_caution(chance), HasSubstr("nick in the edge"));
}

TEST(ChanceWords, GiveTheDrawnFigureWhereItIsFarOff) {
    findings::Chance chance{0.068, 0.095, "free edge", 0.85, 0.1, ""};
    EXPECT_THAT(chance_sentence(chance), Not(HasSubstr("Drawn by lot")));
    chance.by_draws = 0.12;
    EXPECT_THAT(chance_sentence(chance), HasSubstr("it is about 10 of 100"));
}

TEST(ChanceWords, SayWhyNoNumberIsGiven) {
    findings::Chance chance;
    chance.why_not = "What the free edge bears is not known.";
    EXPECT_EQ(
        chance_sentence(chance),
        "No chance of splitting is given. What the free edge bears is not known."
    );
    EXPECT_EQ(chance_caution(chance), "");
}

} // namespace
} // namespace flangewright::tables
