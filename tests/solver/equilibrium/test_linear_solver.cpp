// The sparse solver against a dense one, on matrices with and without negative eigenvalues.
#include "solver/equilibrium/linear_solver.hpp"
#include "tests/support/elastic_sheet.hpp"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <limits>
#include <random>

namespace flangewright::equilibrium {
namespace {

constexpr unsigned seed = 12;

struct Sample {
    SparsePattern pattern = make_pattern(support::rectangle(3, 2, 3, 2).quads, 12);
    Eigen::VectorXd values;
    Eigen::MatrixXd dense;

    // Random couplings; `shift` on the diagonal of every degree of freedom, turned negative for the
    // first `n_negative` of them.
    Sample(double shift, int n_negative) {
        std::mt19937 generator(seed);
        std::uniform_real_distribution<double> number(-1, 1);
        values.resize(pattern.n_entries());
        dense = Eigen::MatrixXd::Zero(pattern.n_dof, pattern.n_dof);
        for (int column = 0; column < pattern.n_dof; ++column) {
            const auto at = static_cast<std::size_t>(column);
            for (int k = pattern.column_start[at]; k < pattern.column_start[at + 1]; ++k) {
                const int row = pattern.row[static_cast<std::size_t>(k)];
                values[k] = number(generator);
                if (row == column) {
                    values[k] += column < n_negative ? -shift : shift;
                }
                dense(row, column) = dense(column, row) = values[k];
            }
        }
    }
};

int n_negative_eigenvalues(const Eigen::MatrixXd& matrix) {
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(matrix);
    return static_cast<int>((eigen.eigenvalues().array() < 0).count());
}

void expect_dense_answer(const Sample& sample) {
    LinearSolver solver(sample.pattern);
    const std::optional<int> n_negative = solver.factorise(sample.values);
    ASSERT_TRUE(n_negative.has_value());
    EXPECT_EQ(*n_negative, n_negative_eigenvalues(sample.dense)); // Sylvester's law of inertia
    const Eigen::VectorXd right = Eigen::VectorXd::LinSpaced(sample.pattern.n_dof, -1, 2);
    const Eigen::VectorXd expected = sample.dense.fullPivLu().solve(right);
    EXPECT_LT((solver.solve(right) - expected).norm(), 1e-10 * expected.norm());
}

TEST(LinearSolver, SolvesADefiniteMatrix) {
    const Sample sample(40, 0);
    ASSERT_EQ(n_negative_eigenvalues(sample.dense), 0);
    expect_dense_answer(sample);
}

TEST(LinearSolver, CountsTheNegativePivotsOfAnIndefiniteMatrix) {
    const Sample clear(40, 7);
    ASSERT_EQ(n_negative_eigenvalues(clear.dense), 7);
    expect_dense_answer(clear);
    expect_dense_answer(Sample(0.5, 0)); // no diagonal to lean on: pivots of size 2
}

TEST(LinearSolver, FactorisesAgainWithNewValues) {
    const Sample first(40, 0);
    const Sample second(30, 3);
    LinearSolver solver(first.pattern);
    ASSERT_TRUE(solver.factorise(first.values).has_value());
    ASSERT_EQ(solver.factorise(second.values).value_or(-1), 3);
    const Eigen::VectorXd right = Eigen::VectorXd::Ones(first.pattern.n_dof);
    EXPECT_LT((second.dense * solver.solve(right) - right).norm(), 1e-10);
}

TEST(LinearSolver, RefusesWhatIsNotANumber) {
    Sample sample(40, 0);
    LinearSolver solver(sample.pattern);
    sample.values[3] = std::numeric_limits<double>::quiet_NaN();
    EXPECT_FALSE(solver.factorise(sample.values).has_value());
}

TEST(LinearSolver, RefusesASingularMatrix) {
    const Sample sample(40, 0);
    LinearSolver solver(sample.pattern);
    EXPECT_FALSE(solver.factorise(Eigen::VectorXd::Zero(sample.values.size())).has_value());
}

} // namespace
} // namespace flangewright::equilibrium
