// The yardstick for speed: it takes time for a stiffness, and says 0 when there is none to be had.
#include "solver/equilibrium/bare_refactor.hpp"
#include "tests/support/elastic_sheet.hpp"

#include <gtest/gtest.h>

namespace flangewright::equilibrium {
namespace {

TEST(BareRefactor, TakesLongerForALargerSheet) {
    const auto seconds = [](int n) {
        support::SheetTrial trial(
            support::elastic_section(70000, 0.33, 1), support::rectangle(20, 20, n, n)
        );
        trial.clamp(trial.patch.line(0));
        const Shape shape = shape_of(trial.state, trial.problem.node_axes);
        EXPECT_TRUE(trial.system.balance(trial.problem, shape, true).is_good);
        return measure_bare_refactor(trial.system.pattern(), trial.system.stiffness());
    };
    const double small = seconds(2);
    EXPECT_GT(small, 0);
    EXPECT_GT(seconds(24), small);
}

TEST(BareRefactor, IsZeroForAMatrixWithoutAFactor) {
    const SparsePattern pattern = make_pattern(support::rectangle(1, 1, 2, 2).quads, 9);
    EXPECT_EQ(measure_bare_refactor(pattern, Eigen::VectorXd::Zero(pattern.n_entries())), 0);
}

TEST(BareRefactor, IsZeroForAnIndefiniteMatrix) {
    const SparsePattern pattern = make_pattern(support::rectangle(1, 1, 2, 2).quads, 9);
    Eigen::VectorXd values = Eigen::VectorXd::Zero(pattern.n_entries());
    for (const int entry : pattern.diagonal) {
        values[entry] = 1;
    }
    EXPECT_GT(measure_bare_refactor(pattern, values), 0);
    for (const int column : {0, pattern.n_dof / 2, pattern.n_dof - 1}) {
        const int entry = pattern.diagonal[static_cast<std::size_t>(column)];
        values[entry] = -1;
        EXPECT_EQ(measure_bare_refactor(pattern, values), 0) << column;
        values[entry] = 1;
    }
}

} // namespace
} // namespace flangewright::equilibrium
