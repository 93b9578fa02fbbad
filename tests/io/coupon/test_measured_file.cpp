#include "io/coupon/measured_file.hpp"
#include "tests/io/coupon/measured_text.hpp"

#include <gmock/gmock.h>

namespace flangewright::coupon {
namespace {

using ::testing::HasSubstr;

constexpr double rounding = 1e-12;

std::string problem_of(const std::string& text) {
    const auto pairs = measured_from(text, "m.csv");
    return pairs ? "none" : key_file::line_for(pairs.error());
}

std::string row(const std::string& cells) {
    return "mark_from,mark_to,before_mm,after_mm,thickness_mm,cracked\n" + cells + "\n";
}

TEST(MeasuredFile, GivesEachPairOfMarks) {
    const auto pairs = measured_from(measured_text, "m.csv");
    ASSERT_TRUE(pairs.has_value());
    ASSERT_EQ(pairs->size(), 5U);
    EXPECT_EQ(pairs->front().mark_from, 4);
    EXPECT_EQ(pairs->front().mark_to, 8);
    EXPECT_NEAR(pairs->front().stretch(), 0.05, rounding);
    EXPECT_EQ(pairs->front().thickness, 0.79);
    EXPECT_FALSE(pairs->at(2).thickness.has_value());
    EXPECT_FALSE(pairs->front().is_cracked);
    EXPECT_TRUE(pairs->back().is_cracked);
    EXPECT_EQ(pairs->back().line, 7);
}

TEST(MeasuredFile, TakesInchesAndDoesWithoutThickness) {
    const auto pairs =
        measured_from("Mark_From;Mark_To;Before_in;After_in;Cracked\n1;2;0.2;0.22;NO\n", "m.csv");
    ASSERT_TRUE(pairs.has_value());
    EXPECT_NEAR(pairs->front().before, 5.08, rounding);
    EXPECT_NEAR(pairs->front().stretch(), 0.1, rounding);
    EXPECT_FALSE(pairs->front().thickness.has_value());
}

TEST(MeasuredFile, RefusesWrongColumnsInOneLine) {
    EXPECT_EQ(
        problem_of("mark_from,mark_to,before,after_mm,cracked\n1,2,5,5,no\n"),
        "m.csv:1: before: found no unit, allowed before_mm or before_in, do: name the columns as "
        "docs/materials.md has them, section \"Coupon\""
    );
    EXPECT_THAT(
        problem_of("mark_from,mark_to,before_mm,after_mm\n1,2,5,5\n"),
        HasSubstr("m.csv:1: cracked: found no such column")
    );
    EXPECT_THAT(
        problem_of("mark_from,mark_to,before_mm,after_mm,thickness,cracked\n1,2,5,5,1,no\n"),
        HasSubstr("thickness: found no unit, allowed thickness_mm or thickness_in")
    );
    EXPECT_THAT(problem_of(""), HasSubstr("found an empty file"));
    EXPECT_THAT(problem_of("\xff\xfe"), HasSubstr("m.csv"));
}

TEST(MeasuredFile, RefusesWrongCellsInOneLine) {
    EXPECT_EQ(
        problem_of(row("1,2,5,5.5,0.7,maybe")),
        "m.csv:2: cracked: found \"maybe\", allowed yes or no, do: write one of both words"
    );
    EXPECT_THAT(problem_of(row("1,2,,5.5,0.7,no")), HasSubstr("m.csv:2: before_mm: found \"\""));
    EXPECT_THAT(problem_of(row("1,2,5,5.5")), HasSubstr("a row that ends before this column"));
    EXPECT_THAT(problem_of(row("1.5,2,5,5.5,,no")), HasSubstr("m.csv:2: mark_from: found 1.5"));
    EXPECT_THAT(problem_of(row("3,2,5,5.5,,no")), HasSubstr("m.csv:2: mark_to: found 2 after 3"));
    EXPECT_THAT(problem_of(row("1,2,0,5.5,,no")), HasSubstr("m.csv:2: before: found 0 mm"));
    EXPECT_THAT(problem_of(row("1,2,5,25.4,,no")), HasSubstr("m.csv:2: after: found 25.4 mm from"));
    EXPECT_THAT(problem_of(row("1,2,5,0.2,,no")), HasSubstr("a stretch of -30 to 200 %"));
    EXPECT_THAT(problem_of(row("1,2,5,5.5,-1,no")), HasSubstr("m.csv:2: thickness: found -1 mm"));
    EXPECT_THAT(
        problem_of(row("1,2,5,5.5,,no\n1,2,5,5.6,,no")),
        HasSubstr("m.csv:3: mark_from: found marks 1 and 2 a second time")
    );
}

TEST(MeasuredFile, TellsOfAFileThatIsNotThere) {
    const auto pairs = read_measured_file("nowhere/m.csv");
    ASSERT_FALSE(pairs.has_value());
    EXPECT_THAT(key_file::line_for(pairs.error()), HasSubstr("nowhere/m.csv"));
}

} // namespace
} // namespace flangewright::coupon
