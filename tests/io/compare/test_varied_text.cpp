#include "io/compare/varied_text.hpp"
#include "tests/io/case_file/case_text.hpp"

#include <gmock/gmock.h>

namespace flangewright::compare {
namespace {

using ::testing::HasSubstr;

std::string varied(const std::string& text, const std::string& key, const std::string& value) {
    const auto result = varied_text(text, {key, value}, "rib.toml");
    return result ? *result : "refused: " + key_file::line_for(result.error());
}

TEST(VariedText, ChangesOneValueAndKeepsTheRest) {
    const std::string text = "# a comment\n[block]\nnose_radius = 2.4 # mm\nwall_angle = 90\n";
    EXPECT_EQ(
        varied(text, "block.nose_radius", "3mm"),
        "# a comment\n[block]\nnose_radius = \"3mm\" # mm\nwall_angle = 90\n"
    );
    EXPECT_EQ(
        varied(text, "block.wall_angle", "92.5"),
        "# a comment\n[block]\nnose_radius = 2.4 # mm\nwall_angle = 92.5\n"
    );
}

TEST(VariedText, ANumberInPlaceOfATextStaysAText) {
    EXPECT_EQ(
        varied("[block]\nnose_radius = \"1/8\"\n", "block.nose_radius", "3"),
        "[block]\nnose_radius = \"3\"\n"
    );
    EXPECT_EQ(
        varied("title = 'a \" b'\nunit = \"mm\"\n", "title", "c"), "title = \"c\"\nunit = \"mm\"\n"
    );
    EXPECT_EQ(varied("title = \"a \\\" b\" # c\n", "title", "c"), "title = \"c\" # c\n");
}

TEST(VariedText, WhatIsNoPlainNumberIsPutInQuotes) {
    for (const char* value : {"03", "3.", ".5", "1/8", "inf", "3e", "+", "-", "1 1/4 in", "e5"}) {
        EXPECT_EQ(
            varied("[block]\nfriction = 0\n", "block.friction", value),
            "[block]\nfriction = \"" + std::string(value) + "\"\n"
        );
    }
    for (const char* value : {"3", "-0.5", "1e3", "+2.5E-3", "true", "0", "0.1"}) {
        EXPECT_EQ(
            varied("[block]\nfriction = 0\n", "block.friction", value),
            "[block]\nfriction = " + std::string(value) + "\n"
        );
    }
}

TEST(VariedText, AddsAKeyToItsSectionAndASectionWhereItIsMissing) {
    const std::string text = "title = \"x\"\n\n[block] # wood\nnose_radius = 3\n\n[drive]\n";
    EXPECT_EQ(
        varied(text, "block.friction", "0.1"),
        "title = \"x\"\n\n[block] # wood\nfriction = 0.1\nnose_radius = 3\n\n[drive]\n"
    );
    EXPECT_EQ(
        varied("[block]", "run.accuracy", "quick"), "[block]\n\n[run]\naccuracy = \"quick\"\n"
    );
    EXPECT_EQ(varied("[block]\n", "unit", "in"), "unit = \"in\"\n[block]\n");
}

TEST(VariedText, FindsValuesInListsOfTablesAndBehindOtherLetters) {
    const std::string text =
        "[bend_line]\npieces = [ { concave = 180, sweep = 18 }, { line = 30 } ]\n";
    EXPECT_EQ(
        varied(text, "bend_line.pieces[1].concave", "200mm"),
        "[bend_line]\npieces = [ { concave = \"200mm\", sweep = 18 }, { line = 30 } ]\n"
    );
    EXPECT_EQ(
        varied("a = { name = \"Träger\", width = 3 }\n", "a.width", "4"),
        "a = { name = \"Träger\", width = 4 }\n"
    );
}

TEST(VariedText, ReplacesATextOfSeveralLines) {
    EXPECT_EQ(varied("t = \"\"\"a\nb\"\"\"\nu = 1\n", "t", "c"), "t = \"c\"\nu = 1\n");
}

TEST(VariedText, RefusesWhatIsNoSingleValue) {
    EXPECT_THAT(
        varied("[run]\nsteps = [\"release\"]\n", "run.steps", "trim"), HasSubstr("a list of values")
    );
    EXPECT_THAT(varied("[block]\nnose_radius = 3\n", "block", "3"), HasSubstr("a section"));
    EXPECT_THAT(
        varied("block = { nose_radius = 3 }\n", "block.friction", "0"),
        HasSubstr("no place to add it")
    );
    EXPECT_THAT(varied("a = 1\n", "a b", "c"), HasSubstr("something else than a key"));
    EXPECT_THAT(varied("a = 1\n", "", "c"), HasSubstr("something else than a key"));
    EXPECT_THAT(varied("a = = 1\n", "a", "2"), HasSubstr("rib.toml:1"));
}

TEST(VariedText, TellsWhatAKeyHolds) {
    EXPECT_EQ(text_at("[bend_line]\nfile = \"part.dxf\"\n", "bend_line.file"), "part.dxf");
    EXPECT_EQ(text_at("[bend_line]\nradius = 3\n", "bend_line.radius"), "");
    EXPECT_EQ(text_at("[bend_line]\n", "bend_line.file"), "");
}

} // namespace
} // namespace flangewright::compare
