// Sparse symmetric direct solver, indefinite matrices included. Wraps MUMPS.
#pragma once

#include "solver/equilibrium/sparse_pattern.hpp"

#include <Eigen/Core>

#include <memory>
#include <optional>

namespace flangewright::equilibrium {

/// One symbolic analysis, many factorisations.
class LinearSolver {
public:
    /// Analyses the pattern. Source: amestoy-et-al-2001. Fails: check() when MUMPS refuses the
    /// pattern.
    explicit LinearSolver(const SparsePattern& pattern);
    ~LinearSolver();
    LinearSolver(const LinearSolver&) = delete;
    LinearSolver& operator=(const LinearSolver&) = delete;

    /// Factorises L D L^T. Returns the number of negative pivots, or nothing when the matrix is
    /// singular or not finite. Values lie as in the pattern.
    [[nodiscard]] std::optional<int> factorise(const Eigen::VectorXd& values);
    /// Solves with the last factor. Fails: the result is not finite when there is none.
    [[nodiscard]] Eigen::VectorXd solve(const Eigen::VectorXd& right_side);

private:
    struct Workings;
    std::unique_ptr<Workings> workings_;
};

} // namespace flangewright::equilibrium
