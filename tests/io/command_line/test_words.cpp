#include "io/command_line/words.hpp"

#include <gtest/gtest.h>

namespace flangewright::command_line {
namespace {

TEST(Lines, BreakBetweenWords) {
    EXPECT_EQ(
        as_lines("The edge decides more than the radius.", 20),
        "  The edge decides\n  more than the\n  radius.\n"
    );
}

TEST(Lines, NeverExceedTheWidthUnlessAWordDoes) {
    EXPECT_EQ(as_lines("a 1234567890 b", 8), "  a\n  1234567890\n  b\n");
}

TEST(Lines, OfNothingAreNone) {
    EXPECT_EQ(as_lines(""), "");
    EXPECT_EQ(as_lines("  \n "), "");
}

} // namespace
} // namespace flangewright::command_line
