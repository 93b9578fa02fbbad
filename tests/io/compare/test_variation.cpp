#include "io/compare/variation.hpp"

#include <gmock/gmock.h>

namespace flangewright::compare {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

std::string refusal(const std::string& word) {
    const auto read = read_variation(word);
    return read ? "read" : key_file::line_for(read.error());
}

TEST(Variation, IsAKeyWithItsValues) {
    const auto read = read_variation("block.nose_radius = 3mm, 4.5 mm,1/4 in");
    ASSERT_TRUE(read);
    EXPECT_EQ(read->key, "block.nose_radius");
    EXPECT_THAT(read->values, ElementsAre("3mm", "4.5 mm", "1/4 in"));
}

TEST(Variation, RefusesNoKeyNoValueAndAnEmptyValue) {
    EXPECT_THAT(refusal(""), HasSubstr("write it like --vary"));
    EXPECT_THAT(refusal("block.nose_radius"), HasSubstr("found \"block.nose_radius\""));
    EXPECT_THAT(refusal("=3mm"), HasSubstr("found \"=3mm\""));
    EXPECT_THAT(refusal("block.nose_radius="), HasSubstr("found no value"));
    EXPECT_THAT(refusal("block.nose_radius= "), HasSubstr("found no value"));
    EXPECT_THAT(refusal("block.nose_radius=3,,4"), HasSubstr("an empty value"));
    EXPECT_THAT(refusal("block.nose_radius=3,"), HasSubstr("an empty value"));
}

TEST(Variation, RefusesTheSameValueTwiceHoweverItIsWritten) {
    EXPECT_THAT(refusal("a=3mm,3mm"), HasSubstr("\"3mm\" twice"));
    EXPECT_THAT(refusal("a=3mm,4mm,3.0 mm"), HasSubstr("which are the same"));
    EXPECT_THAT(refusal("a=1 in,25.4mm"), HasSubstr("which are the same"));
    EXPECT_EQ(refusal("a=3mm,3in"), "read");
    EXPECT_EQ(refusal("a=3,3.0001"), "read");
    EXPECT_EQ(refusal("a=snipped,filed"), "read");
}

TEST(Variation, TellsEveryProblemAndAKeyNamedTwice) {
    const auto read = read_variations({"a=1", "a=2", "b", "c="});
    ASSERT_FALSE(read);
    ASSERT_EQ(read.error().size(), 3u);
    EXPECT_THAT(key_file::line_for(read.error()[0]), HasSubstr("this key twice"));
}

TEST(Variation, CombinationsChangeTheLastKeyFastest) {
    const auto all = combinations({{"a", {"1", "2"}}, {"b", {"x"}}, {"c", {"u", "v"}}});
    ASSERT_EQ(all.size(), 4u);
    EXPECT_EQ(all[0][0].value + all[0][1].value + all[0][2].value, "1xu");
    EXPECT_EQ(all[1][0].value + all[1][1].value + all[1][2].value, "1xv");
    EXPECT_EQ(all[2][0].value + all[2][1].value + all[2][2].value, "2xu");
    EXPECT_EQ(combinations({}).size(), 1u);
}

} // namespace
} // namespace flangewright::compare
