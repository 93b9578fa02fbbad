// Where the next whole run of a search is made.
#include "solver/process/next_run.hpp"

#include <gtest/gtest.h>

namespace flangewright::process {
namespace {

class NextRunOf : public ::testing::Test {
protected:
    NextRunOf() {
        search_.aim = Aim::most_share;
        search_.from = 10;
        search_.to = 40;
        search_.tolerance = 0.5;
    }
    void run(double value, double sign) { runs_.add({value, Reading{sign, 0}}); }
    [[nodiscard]] NextRun next(const std::optional<SignChange>& change, bool has_trials) const {
        return next_run({search_, runs_, rounded_, has_trials}, change);
    }

    ValueSearch search_;
    WholeRuns runs_{search_};
    std::function<double(double)> rounded_ = [](double value) { return value; };
};

TEST_F(NextRunOf, LiesALittleShortOfWhereTheTrialsPutTheBorder) {
    run(20, -0.4);
    SignChange change;
    change.end = SignEnd::found;
    change.at = 30;
    change.below = TriedPoint{29.9, -0.01};
    EXPECT_NEAR(*next(change, true).value, 30 - 0.3 * 0.5, 1e-12);
}

TEST_F(NextRunOf, LiesStraightBetweenRunsOnBothSidesWithoutTrials) {
    run(20, -0.4);
    run(30, 0.6);
    EXPECT_NEAR(*next(std::nullopt, false).value, 24, 1e-12);
    EXPECT_EQ(stretch_to_look_in(runs_), std::pair(20.0, 30.0));
}

TEST_F(NextRunOf, IsNoneWhereTheBoundItselfKeepsTheShare) {
    run(40, -0.1);
    const NextRun end = next(std::nullopt, false);
    EXPECT_FALSE(end.value);
    EXPECT_EQ(end.why, SearchEnd::at_bound);
}

TEST_F(NextRunOf, GoesHalfTheWayToARunWithoutBalance) {
    run(20, -0.4);
    runs_.add({40, std::nullopt});
    EXPECT_EQ(stretch_to_look_in(runs_), std::pair(10.0, 40.0));
    SignChange none;
    none.end = SignEnd::no_figure;
    EXPECT_EQ(*next(none, true).value, 30);
}

} // namespace
} // namespace flangewright::process
