// What a case says for the page of record.
#include "tests/io/case_file/bad_lines.hpp"
#include "tests/io/case_file/case_text.hpp"

#include <gtest/gtest.h>

namespace flangewright::case_file {
namespace {

constexpr int first_line = 32; // of what follows [log]

CaseFileResult with_log(const std::string& lines) {
    return read_case_text(good_case + "[log]\n" + lines + "\n", "case.toml");
}

TEST(LogOfACase, KeepsItsWordsAndLeavesTheRestEmpty) {
    const CaseFileResult read =
        with_log("drawing = \"F-12, issue C\"\npart = \"left, 2 of 4\"\nlot = \"8812\"\n"
                 "certificate = \"K 7 & <b>\"");
    ASSERT_TRUE(read.has_value());
    EXPECT_EQ(read->log.drawing, "F-12, issue C");
    EXPECT_EQ(read->log.part, "left, 2 of 4");
    EXPECT_EQ(read->log.lot, "8812");
    EXPECT_EQ(read->log.certificate, "K 7 & <b>"); // the page makes it harmless
    const CaseFileResult little = with_log("lot = \"8812\"");
    ASSERT_TRUE(little.has_value());
    EXPECT_EQ(little->log.lot, "8812");
    EXPECT_EQ(little->log.drawing, "");
    EXPECT_TRUE(read_case_text(good_case, "case.toml").has_value()); // none at all
}

TEST(LogOfACase, LettersCountNotTheirBytes) {
    std::string sixty;
    for (int i = 0; i < 60; ++i) {
        sixty += "\xc3\xa9";
    }
    EXPECT_TRUE(with_log("part = \"" + sixty + "\"").has_value());
    EXPECT_FALSE(with_log("part = \"" + sixty + "a\"").has_value());
}

class BadLog : public ::testing::TestWithParam<BadLines> {};

TEST_P(BadLog, GivesOneErrorThatNamesLineAndKey) {
    expect_the_one_error(with_log(GetParam().lines), GetParam());
}

INSTANTIATE_TEST_SUITE_P(
    All,
    BadLog,
    ::testing::Values(
        BadLines{"Blank", "lot = \"  \"", first_line, "log.lot", {"leave the key out"}},
        BadLines{
            "TwoLines",
            "part = \"a\\nb\"",
            first_line,
            "log.part",
            {"1 to 60 letters on one line"}},
        BadLines{
            "TooLong",
            "drawing = \"" + std::string(61, 'x') + "\"",
            first_line,
            "log.drawing",
            {"1 to 60 letters"}},
        BadLines{"Number", "lot = 8812", first_line, "log.lot", {"8812"}},
        BadLines{"Unknown", "lots = \"8812\"", first_line, "log.lots", {"lot"}}
    ),
    [](const auto& trial) { return trial.param.name; }
);

} // namespace
} // namespace flangewright::case_file
