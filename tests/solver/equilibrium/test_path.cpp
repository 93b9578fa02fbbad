// Following a path: cut back when an increment is hopeless, stop when asked, and always leave the
// last equilibrium behind.
#include "solver/equilibrium/path.hpp"
#include "tests/support/elastic_sheet.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace flangewright::equilibrium {
namespace {

constexpr double flow_stress = 100;
constexpr int n_elements = 4;

// A bar of section 2 mm^2 that flows from 100 MPa on.
struct PulledBar {
    support::SheetTrial trial{
        {{70000, 0.33},
         std::make_shared<support::LinearFlow>(flow_stress, 200),
         1,
         shell::gauss_layers(2)},
        support::rectangle(10, 2, n_elements, 1)};
    DeadLoads full = DeadLoads::none(trial.model.n_nodes());

    explicit PulledBar(double force) {
        for (const int node : trial.patch.line(0)) {
            trial.fix(node, 0);
            for (const int k : {2, 3, 4}) {
                trial.fix(node, k);
            }
        }
        trial.fix(trial.patch.node(0, 0), 1);
        for (const int node : trial.patch.line(n_elements)) {
            full.on_positions(0, node) = 0.5 * force;
        }
    }
    [[nodiscard]] double length() const {
        return trial.state.positions(0, trial.patch.node(n_elements, 0));
    }
};

PathLimits even_steps(double share) {
    PathLimits limits;
    limits.first_step = limits.largest_step = share;
    return limits;
}

void expect_valid(const shell::SheetState& state) {
    EXPECT_TRUE(state.positions.allFinite());
    EXPECT_TRUE(state.directors.allFinite());
    for (Eigen::Index node = 0; node < state.directors.cols(); ++node) {
        EXPECT_NEAR(state.directors.col(node).norm(), 1, 1e-12);
    }
    for (const material::PointMemory& point : state.points) {
        EXPECT_TRUE(std::isfinite(point.equivalent) && point.equivalent >= 0);
    }
    for (const shell::FibreStretch& fibre : state.fibres) {
        EXPECT_GT(fibre.mean, 0);
    }
}

TEST(FollowPath, ReachesItsEndInTheStretchHookeGives) {
    PulledBar bar(2 * 70);
    const PathReport report = bar.trial.load(bar.full, 0, 1, even_steps(0.5));
    EXPECT_EQ(report.end, PathEnd::done);
    EXPECT_EQ(report.share_done, 1);
    EXPECT_EQ(report.n_increments, 2);
    // Force over first section = E e exp(-e): e = 0.001 (1 + e).
    EXPECT_NEAR(bar.length(), 10 * std::exp(0.001001), 1e-7);
}

// The load is largest where stress = slope (Considere, textbook): 100 + 200 p = 200. What is asked
// for is more, so the path ends there, after cutting back.
TEST(FollowPath, CutsBackAndEndsWhereNoMoreLoadCanBeBorne) {
    PulledBar bar(2 * 150);
    PathLimits limits = even_steps(0.5);
    limits.smallest_step = 1e-4;
    const PathReport report = bar.trial.load(bar.full, 0, 1, limits);
    EXPECT_EQ(report.end, PathEnd::no_equilibrium);
    EXPECT_GT(report.n_cutbacks, 3);
    const double strain = (200 - flow_stress) / 200 + 200.0 / 70000;
    EXPECT_NEAR(report.share_done, 200 * std::exp(-strain) / 150, 1e-3);
    expect_valid(bar.trial.state);
}

TEST(FollowPath, RecoversFromAFirstStepThatIsTooLong) {
    PulledBar gentle(2 * 110);
    ASSERT_EQ(gentle.trial.load(gentle.full, 0, 1, even_steps(0.05)).end, PathEnd::done);
    PulledBar bold(2 * 110);
    PathLimits limits = even_steps(1);
    limits.newton.n_iterations_most = 3; // one increment can't do it
    const PathReport report = bold.trial.load(bold.full, 0, 1, limits);
    EXPECT_EQ(report.end, PathEnd::done);
    EXPECT_GT(report.n_cutbacks, 0);
    EXPECT_NEAR(
        bold.length(), gentle.length(), 1e-4 * gentle.length()
    ); // proportional: no path error
}

// Without a crumb of a step before a stop, which would have to grow again.
TEST(FollowPath, ComesToItsStopsExactly) {
    PulledBar bar(2 * 70);
    std::vector<double> shares{0};
    Path path;
    path.set = [&bar](Problem& now, double share) {
        now.loads = DeadLoads::none(bar.trial.model.n_nodes());
        now.loads.add(bar.full, share);
    };
    path.on_accepted = [&shares](const PathReport& now) {
        shares.push_back(now.share_done);
        return true;
    };
    path.stops = {0.33, 0.37, 0.9};
    support::SheetTrial& trial = bar.trial;
    const PathReport report = follow_path(
        {trial.system, trial.solver, 1}, trial.problem, trial.state, path, even_steps(0.1), {}
    );
    EXPECT_EQ(report.end, PathEnd::done);
    for (const double stop : path.stops) {
        EXPECT_TRUE(std::ranges::any_of(shares, [stop](double share) {
            return std::abs(share - stop) < 1e-9;
        })) << stop;
    }
    for (std::size_t i = 1; i < shares.size(); ++i) {
        EXPECT_GT(shares[i] - shares[i - 1], 0.02 - 1e-9); // half of the shortest way to a stop
    }
}

TEST(FollowPath, StopsWhenAskedAndKeepsTheLastEquilibrium) {
    PulledBar bar(2 * 110);
    std::stop_source source;
    shell::SheetState accepted;
    const PathReport report =
        bar.trial
            .load(bar.full, 0, 1, even_steps(0.1), source.get_token(), [&](const PathReport& now) {
                accepted = bar.trial.state;
                if (now.n_increments == 4) {
                    source.request_stop();
                }
                return true;
            });
    EXPECT_EQ(report.end, PathEnd::stop_requested);
    EXPECT_EQ(report.n_increments, 4);
    EXPECT_NEAR(report.share_done, 0.4, 1e-12);
    EXPECT_EQ(bar.trial.state.positions, accepted.positions);
    expect_valid(bar.trial.state);
}

TEST(FollowPath, EndsEarlyAsDoneWhenTheListenerHasSeenEnough) {
    PulledBar bar(2 * 50);
    const PathReport report =
        bar.trial.load(bar.full, 0, 1, even_steps(0.1), {}, [](const PathReport& now) {
            return now.n_increments < 3;
        });
    EXPECT_EQ(report.end, PathEnd::done);
    EXPECT_EQ(report.n_increments, 3);
}

} // namespace
} // namespace flangewright::equilibrium
