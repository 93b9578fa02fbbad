#include "io/tensile/csv_table.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::tensile {
namespace {

using ::testing::ElementsAre;

CsvTable table_of(const std::string& text) {
    const auto table = csv_table(text, "t.csv");
    EXPECT_TRUE(table.has_value()) << (table ? "" : key_file::line_for(table.error()));
    return table.value_or(CsvTable{});
}

std::string problem_of(const std::string& text) {
    const auto table = csv_table(text, "t.csv");
    return table ? "no problem" : key_file::line_for(table.error());
}

TEST(CsvTable, TakesCommasSemicolonsAndTabs) {
    for (const char* text :
         {"a,b\n1,2.5\n-3e2,+4\n", "a;b\n1;2.5\n-3e2;+4", "a\tb\r\n1\t2.5\r\n-3e2\t+4\r\n"}) {
        const CsvTable table = table_of(text);
        EXPECT_THAT(table.names, ElementsAre("a", "b"));
        ASSERT_EQ(table.columns.size(), 2U);
        EXPECT_THAT(table.columns[0], ElementsAre(1, -300));
        EXPECT_THAT(table.columns[1], ElementsAre(2.5, 4));
    }
}

TEST(CsvTable, PassesOverEmptyLinesAndRemarks) {
    const CsvTable table = table_of("\xEF\xBB\xBF# strip 3\n\n\"a\" , \"b\"\n#units\n1,2\n\n3,4\n");
    EXPECT_THAT(table.names, ElementsAre("a", "b"));
    EXPECT_EQ(table.names_line, 3);
    EXPECT_THAT(table.lines, ElementsAre(5, 7));
}

TEST(CsvTable, NamesLineAndColumnOfWhatIsNoNumber) {
    EXPECT_EQ(
        problem_of("a,b\n1,2\n3,broken\n"),
        "t.csv:3: b: found \"broken\", allowed a number with a point, never a comma, do: write it "
        "like 12.5; units belong into the column's name"
    );
    for (const char* cell : {"", "1,5", "nan", "inf", "1 MPa", "0x10", "1e999"}) {
        const std::string text = std::string("a;b\n1;") + cell + "\n";
        EXPECT_THAT(problem_of(text), ::testing::StartsWith("t.csv:2: b: found")) << cell;
    }
}

TEST(CsvTable, NamesARowThatIsTooShort) {
    EXPECT_THAT(problem_of("a,b\n1,2\n3\n"), ::testing::StartsWith("t.csv:3: b: found a row that"));
}

TEST(CsvTable, RefusesAFileWithoutRows) {
    EXPECT_THAT(problem_of(""), ::testing::HasSubstr("found an empty file"));
    EXPECT_THAT(problem_of("# nothing\n\n"), ::testing::HasSubstr("found an empty file"));
    EXPECT_THAT(problem_of("a,b\n"), ::testing::HasSubstr("names without a row"));
}

TEST(CsvTable, TakesWordsAndEmptyCellsWhereTheyAreAllowed) {
    const CellRules rules{{"cracked"}, {"b"}};
    const auto table = csv_table("a,b,Cracked\n1,,Yes\n2,3,no\n", "t.csv", rules);
    ASSERT_TRUE(table.has_value());
    EXPECT_EQ(table->columns[2], (std::vector<double>{1, 0}));
    EXPECT_TRUE(std::isnan(table->columns[1][0]));
    EXPECT_EQ(table->columns[1][1], 3);
    EXPECT_FALSE(csv_table("a,b,cracked\n,3,no\n", "t.csv", rules).has_value());
    EXPECT_FALSE(csv_table("a,b,cracked\n1,3,\n", "t.csv", rules).has_value());
    EXPECT_FALSE(csv_table("a,b,cracked\n1,3,yes\n", "t.csv").has_value());
}

TEST(CsvTable, AColumnOfWordsStandsForNumbers) {
    const CellRules rules{
        {}, {"cracked"}, {{"step", {{"release", 1}}, "release"}, {"cracked", {{"yes", 1}}, "yes"}}};
    const auto table = csv_table("Step,cracked\nRelease,\nrelease,Yes\n", "t.csv", rules);
    ASSERT_TRUE(table) << key_file::line_for(table.error());
    EXPECT_THAT(table->columns[0], ElementsAre(1, 1));
    EXPECT_TRUE(std::isnan(table->columns[1][0]));
    const auto wrong = csv_table("step,cracked\ntrim,\n", "t.csv", rules);
    ASSERT_FALSE(wrong);
    EXPECT_EQ(
        key_file::line_for(wrong.error()),
        "t.csv:2: step: found \"trim\", allowed release, do: write one of these words"
    );
}

} // namespace
} // namespace flangewright::tensile
