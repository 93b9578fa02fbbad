#include "io/command_line/arguments.hpp"

#include <gmock/gmock.h>

namespace flangewright::command_line {
namespace {

using ::testing::HasSubstr;
using Words = std::vector<std::string>;

CompareArguments read(const Words& words) {
    const auto arguments = read_arguments(words);
    EXPECT_TRUE(arguments.has_value()) << (arguments ? "" : arguments.error().text);
    return arguments && std::holds_alternative<CompareArguments>(*arguments)
        ? std::get<CompareArguments>(*arguments)
        : CompareArguments{};
}

std::string refusal(const Words& words) {
    const auto arguments = read_arguments(words);
    return arguments ? "read" : arguments.error().text;
}

TEST(CompareArguments, AreRead) {
    const auto compare = read(
        {"compare",
         "a.toml",
         "--vary",
         "block.nose_radius=3mm,4mm",
         "--vary",
         "run.accuracy=quick",
         "--out",
         "here",
         "--threads",
         "4",
         "--no-pictures",
         "--list-jobs"}
    );
    ASSERT_EQ(compare.cases.size(), 1u);
    EXPECT_EQ(compare.cases[0], "a.toml");
    ASSERT_EQ(compare.variations.size(), 2u);
    EXPECT_EQ(compare.variations[0].key, "block.nose_radius");
    EXPECT_EQ(compare.variations[0].values.size(), 2u);
    EXPECT_EQ(compare.out, "here");
    EXPECT_EQ(compare.n_at_once, 4);
    EXPECT_FALSE(compare.with_pictures);
    EXPECT_TRUE(compare.with_remedies);
    EXPECT_TRUE(compare.lists_jobs);
    EXPECT_FALSE(compare.collects);
}

TEST(CompareArguments, TakeSeveralCasesBeforeAndBehindOptions) {
    const auto compare = read({"compare", "a.toml", "--vary", "b=1,2", "c.toml", "--collect"});
    ASSERT_EQ(compare.cases.size(), 2u);
    EXPECT_EQ(compare.cases[1], "c.toml");
    EXPECT_TRUE(compare.collects);
}

TEST(CompareArguments, RefuseWhatCanNotBe) {
    EXPECT_THAT(refusal({"compare"}), HasSubstr("write flangewright compare CASE"));
    EXPECT_THAT(refusal({"compare", "a.toml", "--vary", "b="}), HasSubstr("no value"));
    EXPECT_THAT(refusal({"compare", "a.toml", "--vary"}), HasSubstr("found \"--vary\""));
    EXPECT_THAT(
        refusal({"compare", "a.toml", "--vary", "b=1,2", "--list-jobs", "--collect"}),
        HasSubstr("one of the two")
    );
    EXPECT_THAT(refusal({"compare", "a.toml", "--threads", "0"}), HasSubstr("1 to 256"));
    EXPECT_THAT(refusal({"compare", "a.toml", "--very", "b=1,2"}), HasSubstr("write --vary"));
}

} // namespace
} // namespace flangewright::command_line
