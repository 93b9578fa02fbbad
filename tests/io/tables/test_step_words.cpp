#include "io/tables/step_words.hpp"

#include <gtest/gtest.h>

#include <set>

namespace flangewright::tables {
namespace {

TEST(StepWords, DifferForEachStep) {
    std::set<std::string> words;
    for (const job::StepKind kind :
         {job::StepKind::bend_down,
          job::StepKind::release,
          job::StepKind::trim,
          job::StepKind::anneal,
          job::StepKind::heat_treat,
          job::StepKind::set_on_block}) {
        words.insert(words_after(kind));
    }
    EXPECT_EQ(words.size(), 6U);
}

TEST(StepWords, BeginLargeWhenAsked) {
    EXPECT_EQ(with_capital("on the block"), "On the block");
    EXPECT_EQ(with_capital("90 deg"), "90 deg");
    EXPECT_EQ(with_capital(""), "");
}

} // namespace
} // namespace flangewright::tables
