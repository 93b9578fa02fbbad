#include "io/build_log/bias_store.hpp"
#include "tests/support/trial_folder.hpp"

#include <gmock/gmock.h>

#include <fstream>

namespace flangewright::build_log {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

BiasRow row(const std::string& part, double mean, const std::string& sheet = "2024-O") {
    return {"2026-11-26", sheet, "A 1", part, "/w/case.toml", "springback", "deg", 3, mean};
}

TEST(BiasFile, ComesBackAsItWasWritten) {
    const auto rows = bias_from(bias_text({}, {row("left", -0.6), row("right", 0.25)}), "b.csv");
    ASSERT_TRUE(rows);
    ASSERT_EQ(rows->size(), 2U);
    EXPECT_EQ((*rows)[0].part, "left");
    EXPECT_EQ((*rows)[0].case_file, "/w/case.toml");
    EXPECT_EQ((*rows)[0].n, 3);
    EXPECT_DOUBLE_EQ((*rows)[1].mean, 0.25);
}

TEST(BiasFile, APartReadAgainCountsOnce) {
    std::vector<BiasRow> rows{row("left", -0.6), row("right", 0.25)};
    const auto again = bias_from(bias_text(rows, {row("left", -0.8)}), "b.csv");
    ASSERT_TRUE(again);
    ASSERT_EQ(again->size(), 2U);
    EXPECT_DOUBLE_EQ(again->back().mean, -0.8);
}

const std::string unchanged = "No figure of this page has been changed by that.";

TEST(BiasFile, SaysWhichWayEarlierPartsOfThisSheetWent) {
    EXPECT_THAT(experience_with({}, "2024-O"), IsEmpty());
    EXPECT_THAT(experience_with({row("left", -0.6)}, "6061-O"), IsEmpty());
    EXPECT_THAT(
        experience_with({row("left", -0.6)}, "2024-O"),
        ElementsAre(
            "On your last part of 2024-O (2026-11-26) springback came out 0.6 deg more than "
            "predicted.",
            unchanged
        )
    );
    EXPECT_THAT(
        experience_with({row("left", -0.6), row("right", 0.2), row("x", 9, "6061-O")}, "2024-O"),
        ElementsAre(
            "On your last 2 parts of 2024-O (the last 2026-11-26) springback came out 0.2 deg more "
            "than predicted (measured less predicted from -0.2 to +0.6).",
            unchanged
        )
    );
    EXPECT_THAT(
        experience_with({row("left", 0.01)}, "2024-O").front(), HasSubstr("came out as predicted")
    );
}

TEST(BiasFile, SpeaksOfTheLastTenPartsOnly) {
    std::vector<BiasRow> rows(20, row("old", 100));
    for (int i = 0; i < 10; ++i) {
        rows.push_back(row(std::to_string(i), -1));
    }
    EXPECT_THAT(experience_with(rows, "2024-O").front(), HasSubstr("last 10 parts of 2024-O"));
    EXPECT_THAT(experience_with(rows, "2024-O").front(), HasSubstr("1.0 deg more"));
}

TEST(BiasFile, NamesALineThatIsNoRow) {
    const auto rows = bias_from("names\n2026,only,three\n", "b.csv");
    ASSERT_FALSE(rows);
    EXPECT_THAT(key_file::line_for(rows.error()), HasSubstr("b.csv:2: row: found \"2026,only"));
    EXPECT_EQ(as_cell("a,b\"c\n#d"), "a_b_c__d");
}

TEST(BiasFile, IsMadeWithItsFolderAndLeftAloneWhenItHoldsSomethingElse) {
    const support::TrialFolder folder;
    const std::filesystem::path path = folder.path() / "new" / "bias.csv";
    ASSERT_TRUE(store_bias(path, {row("left", -0.6)}));
    ASSERT_TRUE(store_bias(path, {row("right", -0.4)}));
    EXPECT_EQ(read_bias(path)->size(), 2U);
    std::ofstream(path) << "something\nelse\n";
    const auto refused = store_bias(path, {row("left", -0.6)});
    ASSERT_FALSE(refused);
    EXPECT_TRUE(std::holds_alternative<key_file::InputProblem>(refused.error()));
    EXPECT_EQ(std::filesystem::file_size(path), 15U);
    EXPECT_TRUE(read_bias(folder.path() / "none.csv")->empty());
}

} // namespace
} // namespace flangewright::build_log
