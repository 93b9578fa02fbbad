#include "io/sheet_page/record_part.hpp"
#include "tests/support/formed_flange.hpp"

#include <gmock/gmock.h>

namespace flangewright::sheet_page {
namespace {

using ::testing::HasSubstr;

TEST(RecordPart, FillsInWhatTheCaseSaysAndLeavesTheRestBlank) {
    tables::RunFacts facts;
    const job::Job job = support::made_up_job();
    EXPECT_THAT(record_part(facts, job), HasSubstr("<th>Drawing, issue</th><td></td>"));
    facts.log = {"D <7>", "left", "A 1", ""};
    const std::string part = record_part(facts, job);
    EXPECT_THAT(part, HasSubstr("<th>Drawing, issue</th><td>D &lt;7&gt;</td>"));
    EXPECT_THAT(part, HasSubstr("<th>Material lot</th><td>A 1</td>"));
    EXPECT_THAT(part, HasSubstr("<th>Certificate</th><td></td>"));
    EXPECT_THAT(part, HasSubstr("<th>Formed by, date</th><td></td>"));
    EXPECT_THAT(part, HasSubstr("<svg class=\"lay\""));
}

TEST(RecordPart, AsksForHeatOnlyWhereThereIsSome) {
    job::Job job = support::made_up_job();
    job.steps = {job::StepKind::bend_down, job::StepKind::release};
    EXPECT_EQ(heat_record_part(job), "");
    job.steps.push_back(job::StepKind::heat_treat);
    EXPECT_THAT(heat_record_part(job), HasSubstr("Out of heat to quench"));
    EXPECT_THAT(heat_record_part(job), ::testing::Not(HasSubstr("Anneal: temperature")));
}

} // namespace
} // namespace flangewright::sheet_page
