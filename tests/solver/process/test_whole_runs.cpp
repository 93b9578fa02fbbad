#include "solver/process/whole_runs.hpp"

#include <gtest/gtest.h>

namespace flangewright::process {
namespace {

ValueSearch deepest() {
    ValueSearch search;
    search.aim = Aim::most_share;
    search.from = 10;
    search.to = 40;
    search.tolerance = 1;
    return search;
}

TEST(WholeRuns, KeepTheFurthestThatKeepsTheShare) {
    const ValueSearch search = deepest();
    WholeRuns runs(search);
    EXPECT_TRUE(runs.add({20, Reading{-0.4, 0.4}}));
    EXPECT_TRUE(runs.add({25, Reading{-0.1, 0.7}}));
    EXPECT_FALSE(runs.add({30, Reading{0.2, 0.9}}));
    EXPECT_FALSE(runs.add({40, std::nullopt}));
    EXPECT_EQ(runs.best()->value, 25);
    EXPECT_TRUE(runs.keeps_share());
    EXPECT_TRUE(runs.is_checked(40));
    EXPECT_FALSE(runs.is_known(40));
    EXPECT_EQ(runs.sides()->first.value, 25);
    EXPECT_EQ(runs.sides()->second.value, 30);
    EXPECT_FALSE(runs.is_near_enough());
    runs.add({25.8, Reading{0.01, 0.81}});
    EXPECT_TRUE(runs.is_near_enough());
    EXPECT_EQ(runs.stretch(), std::pair(10.0, 40.0));
}

TEST(WholeRuns, OfAnAngleTheNearestIsBest) {
    ValueSearch search;
    search.figure_tolerance = 0.1;
    WholeRuns runs(search);
    runs.add({1, Reading{-0.4, 0}});
    EXPECT_FALSE(runs.is_near_enough());
    EXPECT_TRUE(runs.add({2, Reading{0.05, 0}}));
    EXPECT_TRUE(runs.is_near_enough());
    EXPECT_FALSE(runs.keeps_share());
}

TEST(TrialMisses, GoStraightFromRunToRun) {
    TrialMisses misses;
    misses.begin_at(10);
    const Reading trial{-0.2, 0.6};
    EXPECT_EQ(misses.corrected(trial, 15, Aim::most_share).sign, -0.2); // one run: nothing known
    misses.add(20, 0.1);
    const Reading now = misses.corrected(trial, 15, Aim::most_share);
    EXPECT_NEAR(now.sign, -0.15, 1e-12);
    EXPECT_NEAR(now.figure, 0.6 * 0.85 / 0.8, 1e-12);
    EXPECT_NEAR(misses.corrected({1, 1.5}, 20, Aim::flange_angle).figure, 1.6, 1e-12);
}

} // namespace
} // namespace flangewright::process
