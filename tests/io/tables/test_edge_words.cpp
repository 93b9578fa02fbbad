#include "io/sheet_page/sheet_page.hpp"
#include "io/tables/edge_words.hpp"
#include "io/tables/summary.hpp"
#include "tests/support/formed_flange.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

namespace flangewright::tables {
namespace {

using testing::ContainsRegex;
using testing::HasSubstr;

job::Job job_with(
    std::optional<material::EdgeFinish> as_cut,
    std::optional<material::EdgeFinish> trimmed,
    bool is_trimmed
) {
    job::Job job = support::made_up_job();
    job.blank.edge_finish = as_cut;
    job.trimmed_edge_finish = trimmed;
    job.steps = {job::StepKind::bend_down, job::StepKind::release};
    if (is_trimmed) {
        job.steps.push_back(job::StepKind::trim);
    }
    return job;
}

const job::Job trimmed = job_with(material::EdgeFinish::sawn, material::EdgeFinish::filed, true);
const job::Job untrimmed = job_with(material::EdgeFinish::sawn, material::EdgeFinish::filed, false);

TEST(EdgeWords, DifferForEachFinish) {
    std::set<std::string> words;
    for (const std::optional<material::EdgeFinish> finish :
         {std::optional<material::EdgeFinish>(),

          std::optional(material::EdgeFinish::snipped),
          std::optional(material::EdgeFinish::sawn),
          std::optional(material::EdgeFinish::filed),
          std::optional(material::EdgeFinish::polished)}) {
        words.insert(word_for(finish));
    }
    EXPECT_EQ(words.size(), 5U);
    EXPECT_EQ(word_for(material::EdgeFinish::polished), "polished"); // as case files have it
}

TEST(EdgeWords, SpeakOfTheTrimmedEdgeOnlyWhereAStepTrims) {
    EXPECT_EQ(edge_words(trimmed), "sawn as cut, filed after the trim");
    EXPECT_EQ(edge_words(untrimmed), "sawn as cut");
}

TEST(EdgeWords, StandInTheSummary) {
    const process::JobResult result = support::made_up_result();
    EXPECT_THAT(
        summary_json({}, trimmed, result),
        ContainsRegex("\"edge_finish\": .\n +\"as_cut\": \"sawn\",\n +\"trimmed\": \"filed\"\n")
    );
    EXPECT_THAT(
        summary_json({}, untrimmed, result),
        ContainsRegex("\"edge_finish\": .\n +\"as_cut\": \"sawn\",\n +\"trimmed\": null\n")
    );
    EXPECT_THAT(
        summary_json({}, support::made_up_job(), result), HasSubstr("\"as_cut\": \"not stated\"")
    );
}

TEST(EdgeWords, StandOnThePageWithWhatTheyDo) {
    const std::string page = sheet_page::sheet_page({}, trimmed, support::made_up_result(), {});
    EXPECT_THAT(
        page, HasSubstr("Finish of the free edge</th><td>sawn as cut, filed after the trim</td>")
    );
    EXPECT_THAT(page, HasSubstr(edge_limit_words(trimmed)));
    EXPECT_NE(edge_limit_words(trimmed), edge_limit_words(job_with({}, {}, false)));
}

} // namespace
} // namespace flangewright::tables
