// Newton's method on one increment: quadratic where it should be, honest where it can't.
#include "solver/equilibrium/newton.hpp"
#include "tests/support/elastic_sheet.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <memory>

namespace flangewright::equilibrium {
namespace {

struct PulledBar {
    support::SheetTrial trial;
    explicit PulledBar(double force)
        : trial(
            {{70000, 0.33}, support::swift(330, 0.0032, 0.22), 1, shell::gauss_layers(2)},
            support::rectangle(10, 2, 5, 1)
        ) {
        trial.clamp(trial.patch.line(0));
        for (const int node : trial.patch.line(5)) {
            trial.problem.loads.on_positions(0, node) = 0.5 * force;
        }
    }
    NewtonReport pull(const NewtonLimits& limits, const std::stop_token& stop = {}) {
        shape = shape_of(trial.state, trial.problem.node_axes);
        return find_equilibrium(trial.system, trial.solver, trial.problem, shape, limits, stop);
    }
    Shape shape;
};

TEST(Newton, BalancesAPulledBarInAFewSteps) {
    PulledBar bar(2 * 150);
    const NewtonReport report = bar.pull({.tolerance = 1e-10});
    EXPECT_EQ(report.end, NewtonEnd::converged);
    EXPECT_LE(report.residual, 1e-10);
    EXPECT_LE(report.n_iterations, 12);
    EXPECT_EQ(report.n_negative_pivots, 0);
    const Balance balance = bar.trial.system.balance(bar.trial.problem, bar.shape, false);
    EXPECT_LT(balance.norm, 1e-7 * 300);
    EXPECT_GT(bar.shape.positions(0, bar.trial.patch.line(5).front()), 10);
}

TEST(Newton, StopsAtOnceWhenAsked) {
    PulledBar bar(400);
    std::stop_source source;
    source.request_stop();
    const NewtonReport report = bar.pull({}, source.get_token());
    EXPECT_EQ(report.end, NewtonEnd::stop_requested);
    EXPECT_EQ(report.n_iterations, 0);
}

// No force above the maximum load, K n^n e^-n = 190 MPa over the first section, has an equilibrium
// (Considere's condition, textbook).
TEST(Newton, GivesUpBeyondTheMaximumLoad) {
    PulledBar bar(2 * 260);
    const NewtonReport report = bar.pull({});
    EXPECT_NE(report.end, NewtonEnd::converged);
    EXPECT_NE(report.end, NewtonEnd::stop_requested);
    EXPECT_TRUE(bar.shape.positions.allFinite());
}

TEST(Newton, ReportsALoadThatIsNotANumber) {
    PulledBar bar(std::numeric_limits<double>::quiet_NaN());
    EXPECT_EQ(bar.pull({}).end, NewtonEnd::not_finite);
}

TEST(Newton, CannotSolveASheetThatNothingHolds) {
    PulledBar bar(100);
    bar.trial.problem.is_fixed.assign(bar.trial.problem.is_fixed.size(), false);
    const NewtonReport report = bar.pull({});
    EXPECT_NE(report.end, NewtonEnd::converged);
}

// A bar that is stretched beyond yield at the start and that nothing pulls: the tangent there is
// that of plastic flow, 350 times too soft for the way back, so full steps throw it from flow in
// tension to flow in compression and back for ever.
struct OverstretchedBar {
    support::SheetTrial trial{
        {{70000, 0.33}, std::make_shared<support::LinearFlow>(100, 200), 1, shell::gauss_layers(2)},
        support::rectangle(10, 2, 5, 1)};
    Shape shape;

    NewtonReport relax(int n_shortenings_most) {
        trial.clamp(trial.patch.line(0));
        for (int node = 0; node < trial.model.n_nodes(); ++node) {
            for (const int k : {1, 2, 3, 4}) {
                trial.fix(node, k);
            }
        }
        shape = shape_of(trial.state, trial.problem.node_axes);
        constexpr double stretch = 1.02;
        shape.positions.row(0) *= stretch;
        NewtonLimits limits;
        limits.n_shortenings_most = n_shortenings_most;
        limits.n_iterations_most = 12;
        limits.largest_move = 100;
        return find_equilibrium(
            trial.system, trial.solver, trial.problem, shape, limits, std::stop_token{}
        );
    }
};

TEST(Newton, FindsTheWayBackFromFlowByShorterSteps) {
    OverstretchedBar bar;
    EXPECT_EQ(bar.relax(NewtonLimits{}.n_shortenings_most).end, NewtonEnd::converged);
    EXPECT_NEAR(bar.shape.positions.row(0).maxCoeff(), 10, 1e-4);
}

TEST(Newton, IsThrownToAndFroByFullSteps) {
    OverstretchedBar bar;
    EXPECT_NE(bar.relax(0).end, NewtonEnd::converged);
}

} // namespace
} // namespace flangewright::equilibrium
