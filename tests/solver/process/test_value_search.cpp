// The search round made-up parts whose figures are formulas of the value.
#include "solver/process/value_search.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace flangewright::process {
namespace {

using Figure = std::function<std::optional<double>(double value)>;

constexpr double never = -1; // a share that is not known

findings::LimitUse edge(double share) {
    findings::LimitUse use;
    use.place = "free edge";
    use.grade = material::DataGrade::coupon;
    if (share >= 0) {
        use.share = share;
    }
    return use;
}

/// A part whose whole runs and quick solves follow two formulas; what is asked of it is counted.
class ValueSearchOf : public ::testing::Test {
protected:
    ValueSearchOf() {
        works_.quick.job_at = [](double value) {
            job::Job job;
            job.block.nose_radius = value;
            job.blank.line = outline::BendLine::arc(100, 0.5, outline::Curve::concave);
            return std::optional(job);
        };
        works_.quick.n_at_once = 2;
        works_.quick.solve = [this](const job::Job& job, const findings::Verdict&) -> Numbers {
            const std::optional<double> figure = quick_(job.block.nose_radius);
            return figure ? Numbers({*figure, *figure, 1, 0}) : std::nullopt;
        };
        works_.rounded = [](double value) { return std::round(1e4 * value) / 1e4; };
        works_.run_job = [this](const job::Job& job, const RunOptions&, const Monitor&) {
            checked_.push_back(job.block.nose_radius);
            return Result<JobResult>(result_of(whole_(job.block.nose_radius)));
        };
        search_.from = 0;
        search_.to = 40;
        search_.as_case = 10;
        search_.tolerance = 0.5;
        search_.figure_tolerance = 0.3;
    }

    static JobResult result_of(const std::optional<double>& figure) {
        JobResult result;
        result.reason = figure ? StopReason::done : StopReason::no_equilibrium;
        result.mesh.station_lines = {{0}, {1}};
        StepResult released;
        released.kind = job::StepKind::release;
        released.findings.flange_angle_middle = {0, figure.value_or(0), 0};
        result.steps.push_back(released);
        result.verdict.limits = {edge(figure.value_or(0))};
        result.verdict.share_used = result.verdict.limits.front().share;
        return result;
    }

    ValueFound find(Aim aim, double wanted, const Figure& whole, const Figure& quick) {
        search_.aim = aim;
        search_.wanted = wanted;
        whole_ = whole;
        quick_ = quick;
        return find_value(search_, works_, monitor_);
    }

    void expect_check_belongs(const ValueFound& found) {
        ASSERT_TRUE(found.check && found.figure);
        EXPECT_EQ(*found.figure, *whole_(found.value));
        EXPECT_EQ(found.check->steps.back().findings.flange_angle_middle.mean, *found.figure);
    }

    ValueSearch search_;
    SearchWorks works_;
    Monitor monitor_;
    Figure whole_;
    Figure quick_;
    std::vector<double> checked_;
};

// The quick solves are off by a tenth, as a coarse mesh is: one correction makes up for it.
TEST_F(ValueSearchOf, GivesTheAngleWantedByAWholeRun) {
    const ValueFound found = find(
        Aim::flange_angle,
        27,
        [](double x) { return 0.97 * x + 0.01 * x * x; },
        [](double x) { return 0.9 * x - 1; }
    );
    EXPECT_EQ(found.end, SearchEnd::found);
    EXPECT_NEAR(*found.figure, 27, 0.3);
    EXPECT_LE(checked_.size(), 4U);
    expect_check_belongs(found);
}

TEST_F(ValueSearchOf, EndsWithTheCaseWhereItHasTheAngle) {
    const auto same = [](double x) { return x; };
    const ValueFound found = find(Aim::flange_angle, 10.2, same, same);
    EXPECT_EQ(found.end, SearchEnd::found);
    EXPECT_EQ(found.value, 10);
    EXPECT_EQ(checked_.size(), 1U);
}

TEST_F(ValueSearchOf, GivesTheLargestValueThatKeepsTheShare) {
    const auto share = [](double x) { return x / 30; };
    const ValueFound found = find(Aim::most_share, 0.6, share, [](double x) { return x / 35; });
    EXPECT_EQ(found.end, SearchEnd::found);
    EXPECT_LE(*found.figure, 0.6);
    EXPECT_LE(found.value, 18);
    EXPECT_GE(found.value, 18 - search_.tolerance);
    EXPECT_LE(checked_.size(), 4U);
    expect_check_belongs(found);
}

TEST_F(ValueSearchOf, GivesTheSmallestValueThatKeepsTheShare) {
    const auto share = [](double x) { return 4 / (x + 1); };
    const ValueFound found =
        find(Aim::least_share, 0.5, share, [](double x) { return 4.4 / (x + 1.3); });
    EXPECT_EQ(found.end, SearchEnd::found);
    EXPECT_LE(*found.figure, 0.5);
    EXPECT_NEAR(found.value, 7, search_.tolerance);
    EXPECT_GE(found.value, 7);
}

// A scan by whole runs in steps far finer than the tolerance is the judge.
TEST_F(ValueSearchOf, AgreesWithAScan) {
    const auto share = [](double x) { return 0.2 + 0.01 * x + 0.001 * x * x; };
    double deepest = 0;
    for (int i = 0; i <= 40000; ++i) {
        deepest = share(0.001 * i) <= 0.8 ? 0.001 * i : deepest;
    }
    const ValueFound found =
        find(Aim::most_share, 0.8, share, [](double x) { return 0.15 + 0.012 * x; });
    EXPECT_EQ(found.end, SearchEnd::found);
    EXPECT_NEAR(found.value, deepest, 0.5);
}

TEST_F(ValueSearchOf, TakesTheVerdictsOwnBorderWhereNoShareIsSaid) {
    const auto share = [](double x) { return x / 40; };
    EXPECT_NEAR(find(Aim::most_share, 0, share, share).value, 32, 0.5); // 0.8 of sure data
}

// Where the verdict flips, as at a row of a bend table, no share lies near the border.
TEST_F(ValueSearchOf, FindsTheStepOfAVerdict) {
    const auto share = [](double x) { return x < 23.3 ? 0.4 : 0.9; };
    const ValueFound found = find(Aim::most_share, 0.8, share, share);
    EXPECT_EQ(found.end, SearchEnd::found);
    EXPECT_LT(found.value, 23.3);
    EXPECT_NEAR(found.value, 23.3, 0.5);
}

// The trials put the step elsewhere: whole runs on both sides close in on it.
TEST_F(ValueSearchOf, ClosesInByWholeRunsWhereTrialsMislead) {
    search_.n_checks_most = 20;
    const ValueFound found = find(
        Aim::most_share,
        0.8,
        [](double x) { return x < 23.3 ? 0.4 : 0.9; },
        [](double x) { return x < 12 ? 0.4 : 0.9; }
    );
    EXPECT_EQ(found.end, SearchEnd::found);
    EXPECT_LT(found.value, 23.3);
    EXPECT_NEAR(found.value, 23.3, 0.5);
}

TEST_F(ValueSearchOf, SaysThatAJumpOfTheAngleCannotBeMet) {
    const auto jumps = [](double x) { return x < 20 ? x : x + 5; };
    const ValueFound found = find(Aim::flange_angle, 22, jumps, jumps);
    EXPECT_EQ(found.end, SearchEnd::not_near);
    expect_check_belongs(found);
    EXPECT_GT(std::abs(*found.figure - 22), 0.3);
}

TEST_F(ValueSearchOf, ShowsBothBoundsWhereThereIsNoAnswer) {
    const auto angle = [](double x) { return x; };
    const ValueFound found = find(Aim::flange_angle, 50, angle, angle);
    EXPECT_EQ(found.end, SearchEnd::none_in_bounds);
    ASSERT_TRUE(found.at_from && found.at_to);
    EXPECT_NEAR(*found.at_from->figure, 0, 1e-9);
    EXPECT_NEAR(*found.at_to->figure, 40, 1e-9);
    EXPECT_TRUE(found.at_to->is_check); // the nearer one by a whole run
    const ValueFound all_split = find(
        Aim::most_share, 0.8, [](double x) { return 1 + x; }, [](double x) { return 1 + x; }
    );
    EXPECT_EQ(all_split.end, SearchEnd::none_in_bounds);
    EXPECT_TRUE(all_split.at_from->is_check);
}

TEST_F(ValueSearchOf, GivesTheBoundThatStillKeepsTheShare) {
    const auto share = [](double x) { return 0.01 * x; };
    const ValueFound deepest = find(Aim::most_share, 0.8, share, share);
    EXPECT_EQ(deepest.end, SearchEnd::at_bound);
    EXPECT_EQ(deepest.value, 40);
    expect_check_belongs(deepest);
    const ValueFound smallest = find(Aim::least_share, 0.8, share, share);
    EXPECT_EQ(smallest.end, SearchEnd::at_bound);
    EXPECT_EQ(smallest.value, 0);
}

TEST_F(ValueSearchOf, GoesAroundWholeRunsWithoutBalance) {
    const auto share = [](double x) { return x / 30; };
    const ValueFound found = find(
        Aim::most_share,
        0.6,
        [&](double x) { return x > 16.5 ? std::nullopt : std::optional(share(x)); },
        share
    );
    EXPECT_NE(found.end, SearchEnd::found); // the border at 18 can't be reached
    EXPECT_GT(found.value, 14);
    EXPECT_LE(found.value, 16.5);
    expect_check_belongs(found);
}

TEST_F(ValueSearchOf, BeginsAtABoundWhereTheCaseFindsNoBalance) {
    search_.as_case = 30;
    const auto share = [](double x) { return x > 25 ? std::nullopt : std::optional(x / 30); };
    const ValueFound found = find(Aim::most_share, 0.6, share, share);
    EXPECT_EQ(found.end, SearchEnd::found);
    EXPECT_NEAR(found.value, 18, 0.5);
}

TEST_F(ValueSearchOf, GoesOnWithoutTrials) {
    const auto angle = [](double x) { return x; };
    const ValueFound found =
        find(Aim::flange_angle, 27, angle, [](double) { return std::nullopt; });
    EXPECT_EQ(found.end, SearchEnd::found);
    EXPECT_NEAR(found.value, 27, 0.3);
}

TEST_F(ValueSearchOf, SaysThatNothingFoundItsBalance) {
    const auto none = [](double) { return std::nullopt; };
    const ValueFound found = find(Aim::flange_angle, 27, none, none);
    EXPECT_EQ(found.end, SearchEnd::no_balance);
    EXPECT_EQ(checked_.size(), 3U); // as the case stands, and both bounds
    EXPECT_FALSE(found.check);
}

TEST_F(ValueSearchOf, SaysThatALimitIsNotKnown) {
    const auto unknown = [](double) { return never; };
    EXPECT_EQ(find(Aim::most_share, 0.8, unknown, unknown).end, SearchEnd::not_known);
    EXPECT_EQ(checked_.size(), 1U);
}

TEST_F(ValueSearchOf, KeepsTheNearestRunWhenStopped) {
    std::stop_source stop;
    monitor_.stop = stop.get_token();
    const auto angle = [](double x) { return x; };
    works_.on_trial = [&](const ValueTrial& trial) {
        if (!trial.is_check) {
            stop.request_stop();
        }
    };
    const ValueFound found = find(Aim::flange_angle, 27, angle, angle);
    EXPECT_EQ(found.end, SearchEnd::stopped);
    EXPECT_EQ(found.value, 10);
    expect_check_belongs(found);
}

TEST_F(ValueSearchOf, TellsEachSolveOnce) {
    std::vector<ValueTrial> heard;
    works_.on_trial = [&](const ValueTrial& trial) { heard.push_back(trial); };
    const ValueFound found = find(
        Aim::flange_angle, 27, [](double x) { return x; }, [](double x) { return 0.9 * x; }
    );
    EXPECT_EQ(heard.size(), found.trials.size());
    const auto n_whole = std::ranges::count_if(heard, &ValueTrial::is_check);
    EXPECT_EQ(static_cast<std::size_t>(n_whole), checked_.size());
    EXPECT_GT(heard.size(), checked_.size());
}

} // namespace
} // namespace flangewright::process
