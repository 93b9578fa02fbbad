// A shallow arch under a growing dead load snaps through: statically the way ends at the limit
// load, damped dynamics takes the arch over to its other side.
#include "solver/equilibrium/damped_dynamics.hpp"
#include "tests/support/elastic_sheet.hpp"

#include <gtest/gtest.h>

namespace flangewright::equilibrium {
namespace {

class ShallowArch : public testing::Test {
protected:
    static constexpr double span = 100;
    static constexpr double rise = 4;
    static constexpr int n_elements = 12;

    ShallowArch()
        : trial(
            support::elastic_section(1000, 0, 1),
            support::map_patch(
                n_elements,
                1,
                [](double along, double across) {
                    return Eigen::Vector3d(
                        span * along, 10 * across, 4 * rise * along * (1 - along)
                    );
                }
            )
        ) {
        for (int i = 0; i <= n_elements; ++i) {
            for (int j = 0; j <= 1; ++j) {
                trial.fix(trial.patch.node(i, j), 1);
                if (i == 0 || i == n_elements) { // pinned
                    trial.fix(trial.patch.node(i, j), 0);
                    trial.fix(trial.patch.node(i, j), 2);
                }
            }
        }
        full = DeadLoads::none(trial.model.n_nodes());
        for (int j = 0; j <= 1; ++j) {
            full.on_positions(2, trial.patch.node(n_elements / 2, j)) = -0.5;
        }
    }

    PathReport press(double force, bool may_move) {
        PathLimits limits;
        limits.first_step = limits.largest_step = 0.05;
        limits.largest_turn = 1;
        limits.smallest_step = 1e-3;
        limits.newton.tolerance = 1e-6;
        // Newton is not to leap across on its own.
        limits.newton.largest_move = 0.2;
        limits.newton.n_iterations_most = 12;
        Path path;
        path.may_move = may_move;
        path.set = [&](Problem& now, double share) {
            now.loads = DeadLoads::none(trial.model.n_nodes());
            now.loads.add(full, force * share);
        };
        return follow_path(
            {trial.system, trial.solver, 1}, trial.problem, trial.state, path, limits, {}
        );
    }
    [[nodiscard]] double height() const {
        return trial.state.positions(2, trial.patch.node(n_elements / 2, 0));
    }

    support::SheetTrial trial;
    DeadLoads full;
};

TEST_F(ShallowArch, StaticallyEndsAtTheLimitLoad) {
    const PathReport report = press(5, false);
    EXPECT_EQ(report.end, PathEnd::no_equilibrium);
    EXPECT_GT(height(), 0);
    EXPECT_GT(report.share_done, 0.02);
    EXPECT_LT(report.share_done, 0.98);
}

TEST_F(ShallowArch, IsTakenOverToItsOtherSide) {
    const PathReport report = press(5, true);
    EXPECT_EQ(report.end, PathEnd::done);
    EXPECT_EQ(report.n_moved, 1); // one snap, then static again
    EXPECT_LT(height(), -rise);
    // It ends at rest: the forces balance without any inertia.
    const Shape shape = shape_of(trial.state, trial.problem.node_axes);
    const Balance balance = trial.system.balance(trial.problem, shape, false);
    EXPECT_LT(balance.norm, 1e-5 * balance.scale);
}

TEST_F(ShallowArch, NeedsNoHelpBelowTheLimitLoad) {
    const PathReport report = press(0.2, true);
    EXPECT_EQ(report.end, PathEnd::done);
    EXPECT_EQ(report.n_moved, 0);
    EXPECT_GT(height(), 0);
}

// With nothing at all to hold it there is no rest; the state stays what it was.
TEST_F(ShallowArch, GivesUpWhereThereIsNoRest) {
    for (int node = 0; node < trial.model.n_nodes(); ++node) {
        for (int k = 0; k < 3; ++k) {
            trial.set_free(node, k);
        }
    }
    const Eigen::Matrix3Xd before = trial.state.positions;
    trial.problem.loads = full;
    NewtonLimits limits;
    const NewtonReport report =
        come_to_rest({trial.system, trial.solver, 1}, trial.problem, trial.state, limits, {});
    EXPECT_NE(report.end, NewtonEnd::converged);
    EXPECT_EQ(trial.state.positions, before);
}

} // namespace
} // namespace flangewright::equilibrium
