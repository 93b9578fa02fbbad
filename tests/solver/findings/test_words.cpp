#include "solver/findings/findings.hpp"

#include <gtest/gtest.h>

namespace flangewright::findings {
namespace {

TEST(VerdictWords, AreThoseOfTheDesign) {
    EXPECT_EQ(word_for(VerdictWord::holds), "holds");
    EXPECT_EQ(word_for(VerdictWord::close), "close");
    EXPECT_EQ(word_for(VerdictWord::splits), "splits");
    EXPECT_EQ(word_for(VerdictWord::too_thin), "too thin");
    EXPECT_EQ(word_for(VerdictWord::unknown), "unknown");
}

} // namespace
} // namespace flangewright::findings
