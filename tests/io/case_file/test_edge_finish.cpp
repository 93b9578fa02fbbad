// How the free edge was finished, in [blank] and [trim].
#include "tests/io/case_file/bad_lines.hpp"
#include "tests/io/case_file/case_text.hpp"
#include "tests/io/case_file/reading.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>

namespace flangewright::case_file {
namespace {

const std::string trimmed = with_line(28, "steps = [\"bend-down\", \"release\", \"trim\"]");

std::string with_edge(const std::string& word, const std::string& base = trimmed) {
    return with_line(12, "web_width = 40\nedge = \"" + word + "\"", base);
}

TEST(EdgeFinish, IsNotStatedWhereNothingIsWritten) {
    const job::Job job = read_well(trimmed);
    EXPECT_EQ(job.blank.edge_finish, std::nullopt);
    EXPECT_EQ(job.trimmed_edge_finish, std::nullopt);
}

TEST(EdgeFinish, OfTheBlankHoldsForTheTrimmedEdgeToo) {
    const auto both_are = [](const std::string& word, material::EdgeFinish finish) {
        const job::Job job = read_well(with_edge(word));
        return job.blank.edge_finish == finish && job.trimmed_edge_finish == finish;
    };
    EXPECT_TRUE(both_are("snipped", material::EdgeFinish::snipped));
    EXPECT_TRUE(both_are("sawn", material::EdgeFinish::sawn));
    EXPECT_TRUE(both_are("filed", material::EdgeFinish::filed));
    EXPECT_TRUE(both_are("Polished", material::EdgeFinish::polished));
}

TEST(EdgeFinish, OfTheTrimmedEdgeStandsAlone) {
    const job::Job job = read_well(with_edge("sawn") + "[trim]\nedge = \"polished\"\n");
    EXPECT_EQ(job.blank.edge_finish, material::EdgeFinish::sawn);
    EXPECT_EQ(job.trimmed_edge_finish, material::EdgeFinish::polished);
    const job::Job only_trimmed = read_well(trimmed + "[trim]\nedge = \"filed\"\n");
    EXPECT_EQ(only_trimmed.blank.edge_finish, std::nullopt);
    EXPECT_EQ(only_trimmed.trimmed_edge_finish, material::EdgeFinish::filed);
    EXPECT_EQ(
        read_well(with_edge("sawn") + "[trim]\n").trimmed_edge_finish, material::EdgeFinish::sawn
    );
}

TEST(EdgeFinish, OfAnUnknownWordIsRefusedWithTheKnownOnes) {
    expect_the_one_error(
        read_case_text(with_edge("filled"), "case.toml"),
        {"", "", 13, "blank.edge", {"snipped, sawn, filed or polished", "write \"filed\""}}
    );
    expect_the_one_error(
        read_case_text(trimmed + "[trim]\nedge = 3\n", "case.toml"),
        {"", "", 32, "trim.edge", {"text in quotes"}}
    );
    expect_the_one_error(
        read_case_text(trimmed + "[trim]\nedges = \"filed\"\n", "case.toml"),
        {"", "", 32, "trim.edges", {"an unknown key", "edge"}}
    );
}

TEST(EdgeFinish, OfATrimmedEdgeThatNoStepTrimsIsRefused) {
    expect_the_one_error(
        read_case_text(good_case + "[trim]\nedge = \"filed\"\n", "case.toml"),
        {"", "", 32, "trim.edge", {"a trimmed edge that no step trims", "delete [trim]"}}
    );
    expect_the_one_error(
        read_case_text(good_case + "[trim]\n", "case.toml"), {"", "", 31, "trim.edge", {"no step"}}
    );
    // Steps that are wrong are the one thing to say.
    expect_the_one_error(
        read_case_text(with_line(28, "steps = [\"trin\"]") + "[trim]\n", "case.toml"),
        {"", "", 28, "run.steps", {"trin"}}
    );
}

} // namespace
} // namespace flangewright::case_file
