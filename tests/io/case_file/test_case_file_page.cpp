// docs/case-file.md must keep up with the reader.
#include "io/case_file/case_file.hpp"
#include "solver/material/hardening_law.hpp"
#include "solver/material/yield_law.hpp"
#include "tests/io/case_file/case_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <regex>

namespace flangewright::case_file {
namespace {

std::string page() {
    std::ostringstream text;
    text << std::ifstream(std::string(FLANGEWRIGHT_SOURCE_DIR) + "/docs/case-file.md").rdbuf();
    return text.str();
}

// The nth block between ```toml and ```.
std::string example(int n) {
    const std::string text = page();
    std::size_t begin = 0;
    for (int i = 0; i < n; ++i) {
        begin = text.find("```toml\n", begin) + 8;
    }
    return text.substr(begin, text.find("```", begin) - begin);
}

std::string first_problem(const std::string& text) {
    const auto result = read_case_text(text, "page");
    return result ? "" : line_for(result.error().front());
}

TEST(CaseFilePage, ExampleIsAGoodCase) {
    ASSERT_FALSE(example(1).empty());
    EXPECT_EQ(first_problem(example(1)), "");
}

TEST(CaseFilePage, MaterialExampleCanTakeTheNamesPlace) {
    std::string text = example(1);
    const std::size_t name = text.find("material = ");
    text.erase(name, text.find('\n', name) - name);
    const std::size_t next_section = text.find("[bend_line]");
    text.insert(next_section, example(2));
    EXPECT_EQ(first_problem(text), "");
}

TEST(CaseFilePage, YieldExampleFitsTheMaterialExample) {
    std::string text = with_line(6, "rolling_direction = 90");
    text = with_line(4, "", text) + example(2) + example(4);
    ASSERT_NE(example(4).find("[sheet.material.yield]"), std::string::npos);
    EXPECT_EQ(first_problem(text), "");
}

TEST(CaseFilePage, NamesYieldLawsAndTheirKeys) {
    const std::string text = page();
    for (const material::YieldEntry& entry : material::yield_laws()) {
        EXPECT_THAT(text, ::testing::HasSubstr("| `" + entry.name + "` |"));
        for (const material::LawParameter& parameter : entry.parameters) {
            EXPECT_THAT(text, ::testing::HasSubstr("`" + parameter.name + "`"));
        }
    }
}

TEST(CaseFilePage, NamesTheKeysOfScatter) {
    const std::string text = good_case
        + "[scatter]\nthickness = \"4 %\"\nyield_stress = \"5 %\"\nhardening = \"0 %\"\n"
          "nose_radius = \"2 %\"\nfriction = 0.02\nedge_limit = \"15 %\"\n";
    const auto result = read_case_text(text, "page");
    ASSERT_TRUE(result) << line_for(result.error().front());
    ASSERT_TRUE(result->job.scatter.has_value());
    EXPECT_DOUBLE_EQ(result->job.scatter->thickness, 0.04);
    EXPECT_DOUBLE_EQ(result->job.scatter->yield_stress, 0.05);
    EXPECT_DOUBLE_EQ(result->job.scatter->hardening, 0);
    EXPECT_DOUBLE_EQ(result->job.scatter->nose_radius, 0.02);
    EXPECT_DOUBLE_EQ(result->job.scatter->friction, 0.02);
    EXPECT_DOUBLE_EQ(result->job.scatter->edge_limit, 0.15);
    for (const char* key :
         {"`[scatter]`",
          "`thickness`",
          "`yield_stress`",
          "`hardening`",
          "`nose_radius`",
          "`edge_limit`"}) {
        EXPECT_THAT(page(), ::testing::HasSubstr(key));
    }
    EXPECT_FALSE(read_case_text(good_case, "page")->job.scatter.has_value());
    const auto empty = read_case_text(good_case + "[scatter]\n", "page");
    EXPECT_DOUBLE_EQ(empty->job.scatter->thickness, job::Scatter{}.thickness);
    EXPECT_THAT(
        first_problem(good_case + "[scatter]\nthickness = \"90 %\"\n"),
        ::testing::HasSubstr("scatter.thickness")
    );
}

TEST(CaseFilePage, BackStressExampleFitsIntoTheMaterialExample) {
    std::string text = example(1);
    const std::size_t name = text.find("material = ");
    text.erase(name, text.find('\n', name) - name);
    const std::string material = example(2);
    text.insert(
        text.find("[bend_line]"),
        material.substr(0, material.find("[sheet.material.hardening]")) + example(3)
    );
    EXPECT_EQ(first_problem(text), "");
}

TEST(CaseFilePage, LimitsExampleFitsBehindTheMaterialExample) {
    std::string text = example(1);
    const std::size_t name = text.find("material = ");
    text.erase(name, text.find('\n', name) - name);
    text.insert(text.find("[bend_line]"), example(2) + example(4));
    EXPECT_EQ(first_problem(text), "");
}

TEST(CaseFilePage, NamesEveryKey) {
    const std::string text = page();
    const std::regex key("(?:^|\n)([a-z_]+) = ");
    for (std::sregex_iterator at(good_case.begin(), good_case.end(), key), end; at != end; ++at) {
        EXPECT_THAT(text, ::testing::HasSubstr("`" + (*at)[1].str() + "`"));
    }
    for (const char* rare :
         {"`length`",
          "`pieces`",
          "`wall_radius`",
          "`flat_width`",
          "`stiffness`",
          "`recall_rate`",
          "`fitted_to`",
          "`r_values`",
          "`edge_limit`",
          "`forming_limit`",
          "`flc0`"}) {
        EXPECT_THAT(text, ::testing::HasSubstr(rare));
    }
}

TEST(CaseFilePage, NamesEveryHardeningLawWithItsParameters) {
    const std::string text = page();
    for (const material::HardeningEntry& entry : material::hardening_laws()) {
        EXPECT_THAT(text, ::testing::HasSubstr("| `" + entry.name + "` |"));
        for (const material::LawParameter& parameter : entry.parameters) {
            EXPECT_THAT(text, ::testing::HasSubstr("`" + parameter.name + "`"));
        }
    }
}

} // namespace
} // namespace flangewright::case_file
