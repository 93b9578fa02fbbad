#include "io/command_line/from_step.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace flangewright::command_line {
namespace {

using job::StepKind;
using ::testing::HasSubstr;

const std::vector<StepKind> steps{
    StepKind::bend_down,
    StepKind::release,
    StepKind::trim,
    StepKind::return_bend,
    StepKind::release};

std::string fault(const std::string& step, std::size_t n_finished = 5) {
    const auto found = steps_before(step, steps, n_finished);
    return found ? "" : line_for(found.error());
}

TEST(FromStep, IsNamedByItsWordOrItsNumber) {
    EXPECT_EQ(steps_before("trim", steps, 5).value_or(99), 2U);
    EXPECT_EQ(steps_before("return-bend", steps, 5).value_or(99), 3U);
    EXPECT_EQ(steps_before("5", steps, 5).value_or(99), 4U);
    EXPECT_EQ(steps_before("1", steps, 0).value_or(99), 0U);
    EXPECT_EQ(steps_before("3", steps, 2).value_or(99), 2U);
}

TEST(FromStep, SaysWhatThereIsForAnythingElse) {
    for (const char* wrong : {"anneal", "0", "6", "-1", "2.5", "bend", "99999999999999999999"}) {
        EXPECT_THAT(fault(wrong), HasSubstr("1 bend-down, 2 release, 3 trim")) << wrong;
        EXPECT_THAT(fault(wrong), HasSubstr("--from")) << wrong;
    }
    EXPECT_THAT(fault("release"), HasSubstr("several of that name"));
}

TEST(FromStep, MustHaveBeenReached) {
    EXPECT_THAT(fault("return-bend", 2), HasSubstr("step 2 is the last one finished"));
    EXPECT_THAT(fault("trim", 0), HasSubstr("run without --from"));
}

} // namespace
} // namespace flangewright::command_line
