#include "io/key_file/nearest_word.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace flangewright::key_file {
namespace {

// Source: Damerau 1964: one slip is a letter wrong, missing, too many, or two swapped.
TEST(NearestWord, CountsSlipsOfTheFinger) {
    EXPECT_EQ(edit_distance("radius", "radius"), 0U);
    EXPECT_EQ(edit_distance("radus", "radius"), 1U);
    EXPECT_EQ(edit_distance("radiuss", "radius"), 1U);
    EXPECT_EQ(edit_distance("rodius", "radius"), 1U);
    EXPECT_EQ(edit_distance("raidus", "radius"), 1U);
    EXPECT_EQ(edit_distance("", "radius"), 6U);
}

TEST(NearestWord, IsOnlyGivenWhenItCanBeMeant) {
    const std::vector<std::string> known{"radius", "sweep", "length"};
    EXPECT_EQ(nearest_word("radious", known), "radius");
    EXPECT_EQ(nearest_word("colour", known), std::nullopt);
    EXPECT_EQ(nearest_word("", known), std::nullopt);
    EXPECT_EQ(nearest_word(std::string(100'000, 'r'), known), std::nullopt);
}

TEST(NearestWord, ListsWordsAsASentenceWould) {
    EXPECT_EQ(listed(std::vector<std::string>{}), "");
    EXPECT_EQ(listed(std::vector<std::string>{"a"}), "a");
    EXPECT_EQ(listed(std::vector<std::string>{"a", "b", "c"}), "a, b or c");
}

} // namespace
} // namespace flangewright::key_file
