#include "tests/io/compare/compared_runs.hpp"

#include <gmock/gmock.h>

namespace flangewright::compare {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;

TEST(Difference, IsWithinTheErrorsOfBothTogether) {
    EXPECT_EQ(difference({1.0, 0.3}, {1.45, 0.4}), Difference::within_errors); // root is 0.5
    EXPECT_EQ(difference({1.0, 0.3}, {1.55, 0.4}), Difference::beyond_errors);
    EXPECT_EQ(difference({1.55, 0.4}, {1.0, 0.3}), Difference::beyond_errors);
}

TEST(Difference, IsUnknownWithoutValueOrErrorBars) {
    EXPECT_EQ(difference({1.0, {}}, {1.0, {}}), Difference::unknown);
    EXPECT_EQ(difference({{}, 0.1}, {1.0, 0.1}), Difference::unknown);
    EXPECT_EQ(difference({1.0, 0.1}, {1.05, {}}), Difference::within_errors);
}

TEST(BestRun, HasTheBestWordBeforeTheSmallestShare) {
    const std::vector<ComparedRun> runs{
        failed_run("f", "no equilibrium"),
        made_up_run("a", "close", 0.5),
        made_up_run("b", "holds", 0.8),
        made_up_run("c", "holds", 0.7),
        made_up_run("d", "unknown", 0.1)};
    EXPECT_EQ(best_run(runs), 3u);
    EXPECT_FALSE(best_run({failed_run("f", "x")}));
}

TEST(Advice, TakesTheBestAndSaysHowFarTheNextIs) {
    const std::string text = advice(
        {made_up_run("nose 3", "close", 0.93, 0.02), made_up_run("nose 4", "holds", 0.70, 0.02)}
    );
    EXPECT_THAT(
        text,
        AllOf(
            HasSubstr("Take 2 (nose 4): it holds with 70 % of the limit used"),
            HasSubstr("1 (nose 3), is close with 93 %"),
            HasSubstr("larger than the error bars"),
            HasSubstr("typical"),
            HasSubstr("approved data decide")
        )
    );
}

TEST(Advice, DoesNotChooseByADifferenceSmallerThanTheErrors) {
    const std::string text = advice(
        {made_up_run("nose 3", "holds", 0.71, 0.02), made_up_run("nose 4", "holds", 0.70, 0.02)}
    );
    EXPECT_THAT(
        text,
        AllOf(
            HasSubstr("Variants 1, 2 hold and can't be told apart"),
            HasSubstr("smaller than the error bars"),
            HasSubstr("easiest to make"),
            Not(HasSubstr("Take 2"))
        )
    );
}

TEST(Advice, AmongEqualsTakesTheFlatterOneOnlyBeyondItsErrors) {
    std::vector<ComparedRun> runs{
        made_up_run("nose 3", "holds", 0.71, 0.02), made_up_run("nose 4", "holds", 0.70, 0.02)};
    runs[0].record.web_lift_mm = {0.2, 0.05};
    runs[1].record.web_lift_mm = {0.5, 0.05};
    EXPECT_THAT(advice(runs), HasSubstr("take 1 (nose 3), since its web lifts least (0.20 mm)"));
    runs[0].record.web_lift_mm.error = 0.5;
    EXPECT_THAT(advice(runs), Not(HasSubstr("lifts least")));
    runs[1].record.springback_deg = {1.0, 0.1};
    EXPECT_THAT(advice(runs), HasSubstr("take 2 (nose 4), since it springs back least"));
}

TEST(Advice, ADifferenceOfUnknownSureness) {
    EXPECT_THAT(
        advice({made_up_run("a", "holds", 0.7), made_up_run("b", "holds", 0.6)}),
        HasSubstr("how sure the difference is, is not known")
    );
}

TEST(Advice, RanksTooThinBeforeASplit) {
    EXPECT_THAT(
        advice({made_up_run("a", "splits", 1.1, 0.01), made_up_run("b", "too thin", 1.2, 0.01)}),
        HasSubstr("The nearest to it is 2 (b): it gets too thin with 120 %")
    );
}

TEST(Advice, DoesNotTellToTakeWhatSplits) {
    std::vector<ComparedRun> runs{
        made_up_run("a", "splits", 1.4, 0.01), made_up_run("b", "splits", 1.2, 0.01)};
    runs[1].record.helps = "flange 2.5 mm less deep: 79 %";
    EXPECT_THAT(
        advice(runs),
        AllOf(
            HasSubstr("None of these holds. The nearest to it is 2 (b): it splits with 120 %"),
            HasSubstr("flange 2.5 mm less deep"),
            Not(HasSubstr("Take"))
        )
    );
    runs[0].record.share.error = 0.5;
    EXPECT_THAT(
        advice(runs),
        AllOf(HasSubstr("None of these holds. Variants 1, 2 split"), HasSubstr("apart"))
    );
}

TEST(Advice, SaysNothingOfSplittingWhereTheLimitIsNotKnown) {
    ComparedRun one = made_up_run("a", "unknown", 0.7);
    ComparedRun other = made_up_run("b", "unknown", 0.6);
    one.record.share = {};
    other.record.share = {};
    EXPECT_THAT(
        advice({one, other}),
        AllOf(HasSubstr("not known"), HasSubstr("strained least in 2 (b)"), Not(HasSubstr("Take")))
    );
}

TEST(Advice, NeedsTwoFinishedRuns) {
    EXPECT_THAT(advice({failed_run("a", "x"), failed_run("b", "y")}), HasSubstr("no variant came"));
    EXPECT_THAT(
        advice({failed_run("a", "x"), made_up_run("b", "holds", 0.6)}),
        HasSubstr("only 2 (b) came to its end")
    );
}

} // namespace
} // namespace flangewright::compare
