#include "solver/equilibrium/bare_refactor.hpp"

#include <cholmod.h>

#include <algorithm>
#include <chrono>
#include <limits>

namespace flangewright::equilibrium {

namespace {

constexpr int n_tries = 3;

cholmod_sparse*
copy_matrix(const SparsePattern& pattern, const Eigen::VectorXd& values, cholmod_common& common) {
    const auto n = static_cast<std::size_t>(pattern.n_dof);
    constexpr int lower_stored = -1;
    cholmod_sparse* matrix = cholmod_allocate_sparse(
        n, n, pattern.row.size(), 1, 1, lower_stored, CHOLMOD_REAL, &common
    );
    if (matrix == nullptr) {
        return nullptr;
    }
    std::copy(
        pattern.column_start.begin(), pattern.column_start.end(), static_cast<int*>(matrix->p)
    );
    std::copy(pattern.row.begin(), pattern.row.end(), static_cast<int*>(matrix->i));
    std::copy(values.begin(), values.end(), static_cast<double*>(matrix->x));
    return matrix;
}

} // namespace

double measure_bare_refactor(const SparsePattern& pattern, const Eigen::VectorXd& values) {
    cholmod_common common;
    cholmod_start(&common);
    common.print = 0;
    common.final_ll = 1; // without supernodes it would else factor indefinite matrices too
    cholmod_sparse* matrix = copy_matrix(pattern, values, common);
    double best = 0;
    if (matrix != nullptr) {
        cholmod_factor* factor = cholmod_analyze(matrix, &common);
        for (int i = 0; i < n_tries && factor != nullptr; ++i) {
            const auto begin = std::chrono::steady_clock::now();
            cholmod_factorize(matrix, factor, &common);
            const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
            const bool is_positive = factor->minor == static_cast<std::size_t>(pattern.n_dof);
            best = !is_positive ? 0 : (i == 0 ? took.count() : std::min(best, took.count()));
        }
        cholmod_free_factor(&factor, &common);
    }
    cholmod_free_sparse(&matrix, &common);
    cholmod_finish(&common);
    return best;
}

} // namespace flangewright::equilibrium
