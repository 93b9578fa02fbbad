#include "solver/equilibrium/linear_solver.hpp"

#include "mesh/base/check.hpp"

#include <dlfcn.h>
#include <dmumps_c.h>
#include <malloc.h>

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
constexpr int order_by_pord = 4; // the quickest factor here of what Debian's MUMPS offers
constexpr double pivot_threshold = 1e-8; // pivots move only when they must: keeps the fronts dense
constexpr int workspace_too_small = -9;
constexpr int workspace_too_small_too = -8;
constexpr int most_extra_workspace = 800; // per cent

// MUMPS takes and returns its whole work space at every factorisation. Handed back to the system
// each time, the fresh pages cost half as much as the arithmetic; so the process keeps them.
void keep_large_blocks() {
#ifdef __GLIBC__
    static const bool is_set = [] {
        constexpr int a_gibibyte = 1 << 30;
        mallopt(M_MMAP_THRESHOLD, a_gibibyte);
        mallopt(M_TRIM_THRESHOLD, a_gibibyte);
        return true;
    }();
    static_cast<void>(is_set);
#endif
}

// The fronts of a shell are small: OpenBLAS's own threads gain nothing on them, and while they wait
// they take the cores from the element loop. Other BLAS libraries are left as they are.
void keep_blas_to_one_thread() {
    using SetThreads = void (*)(int);
    if (const auto set =
            reinterpret_cast<SetThreads>(dlsym(RTLD_DEFAULT, "openblas_set_num_threads"))) {
        set(1);
    }
}

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
    keep_large_blocks();
    keep_blas_to_one_thread();
    Workings& w = *workings_;
    w.mumps.par = 1;
    w.mumps.sym = symmetric_indefinite;
    w.mumps.comm_fortran = use_comm_world;
    w.run(job_begin);
    for (const int output : {1, 2, 3}) {
        w.control(output) = -1; // no output channels
    }
    w.control(4) = 0;
    w.control(6) = 0; // no permutation to the diagonal: it is already heavy
    w.control(7) = order_by_pord;
    w.control(8) = 0; // no scaling
    w.control(10) = 0; // no iterative refinement
    w.control(12) = 1; // plain symmetric ordering
    w.control(14) = 60; // extra workspace, per cent
    w.mumps.cntl[0] = pivot_threshold;
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
