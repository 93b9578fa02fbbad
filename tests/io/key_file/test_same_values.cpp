#include "io/key_file/same_values.hpp"

#include <gtest/gtest.h>

namespace flangewright::key_file {
namespace {

bool say_the_same(const char* one, const char* other) {
    return is_same(document_from(one, "")->root, document_from(other, "")->root);
}

TEST(SameValues, DoNotMindPlaceAndComment) {
    EXPECT_TRUE(say_the_same("a = 1\n[b]\nc = [1, \"x\"]\n", "\na   = 1 # one\n[b]\nc=[1,\"x\"]"));
}

TEST(SameValues, SeeEveryDifference) {
    EXPECT_FALSE(say_the_same("a = 1", "a = 2"));
    EXPECT_FALSE(say_the_same("a = 1", "a = \"1\""));
    EXPECT_FALSE(say_the_same("a = 1", "b = 1"));
    EXPECT_FALSE(say_the_same("a = [1, 2]", "a = [1]"));
    EXPECT_FALSE(say_the_same("[a]\nb = 1", "[a]\nb = 1\nc = 2"));
    EXPECT_FALSE(say_the_same("a = true", "a = false"));
}

} // namespace
} // namespace flangewright::key_file
