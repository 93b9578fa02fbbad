#include "solver/equilibrium/linear_solver.hpp"

#include "mesh/base/check.hpp"

#include <dmumps_c.h>

#include <limits>
#include <vector>

namespace flangewright::equilibrium {

namespace {

constexpr int job_begin = -1;
constexpr int job_end = -2;
constexpr int job_analyse = 1;
constexpr int job_factorise = 2;
constexpr int job_solve = 3;
constexpr int use_comm_world = -987654; // MUMPS users' guide
constexpr int symmetric_indefinite = 2;
constexpr int order_by_metis = 5;
constexpr int workspace_too_small = -9;
constexpr int workspace_too_small_too = -8;
constexpr int most_extra_workspace = 800; // per cent

} // namespace

struct LinearSolver::Workings {
    DMUMPS_STRUC_C mumps{};
    std::vector<int> row;
    std::vector<int> column;
    std::vector<double> values;

    int& control(int number) { return mumps.icntl[number - 1]; }
    void run(int job) {
        mumps.job = job;
        dmumps_c(&mumps);
    }
};

LinearSolver::LinearSolver(const SparsePattern& pattern) : workings_(std::make_unique<Workings>()) {
    Workings& w = *workings_;
    w.mumps.par = 1;
    w.mumps.sym = symmetric_indefinite;
    w.mumps.comm_fortran = use_comm_world;
    w.run(job_begin);
    for (const int output : {1, 2, 3}) {
        w.control(output) = -1; // no output channels
    }
    w.control(4) = 0;
    w.control(7) = order_by_metis;
    w.control(10) = 0;  // no iterative refinement
    w.control(14) = 60; // extra workspace, per cent
    w.control(24) = 0;
    w.row.reserve(pattern.row.size());
    w.column.reserve(pattern.row.size());
    for (int column = 0; column < pattern.n_dof; ++column) {
        const int end = pattern.column_start[static_cast<std::size_t>(column) + 1];
        for (int k = pattern.column_start[static_cast<std::size_t>(column)]; k < end; ++k) {
            w.row.push_back(pattern.row[static_cast<std::size_t>(k)] + 1);
            w.column.push_back(column + 1);
        }
    }
    w.values.resize(pattern.row.size());
    w.mumps.n = pattern.n_dof;
    w.mumps.nnz = static_cast<MUMPS_INT8>(pattern.row.size());
    w.mumps.irn = w.row.data();
    w.mumps.jcn = w.column.data();
    w.mumps.a = w.values.data();
    w.run(job_analyse);
    check(w.mumps.infog[0] >= 0, "the sparse pattern can be analysed");
}

LinearSolver::~LinearSolver() {
    workings_->run(job_end);
}

std::optional<int> LinearSolver::factorise(const Eigen::VectorXd& values) {
    Workings& w = *workings_;
    if (!values.allFinite()) {
        return std::nullopt;
    }
    Eigen::VectorXd::Map(w.values.data(), values.size()) = values;
    w.run(job_factorise);
    while ((w.mumps.infog[0] == workspace_too_small || w.mumps.infog[0] == workspace_too_small_too)
           && w.control(14) < most_extra_workspace) {
        w.control(14) *= 2;
        w.run(job_factorise);
    }
    if (w.mumps.infog[0] < 0) {
        return std::nullopt;
    }
    return w.mumps.infog[11];
}

Eigen::VectorXd LinearSolver::solve(const Eigen::VectorXd& right_side) {
    Workings& w = *workings_;
    Eigen::VectorXd solution = right_side;
    w.mumps.rhs = solution.data();
    w.mumps.nrhs = 1;
    w.run(job_solve);
    if (w.mumps.infog[0] < 0) {
        solution.setConstant(std::numeric_limits<double>::quiet_NaN());
    }
    return solution;
}

} // namespace flangewright::equilibrium
