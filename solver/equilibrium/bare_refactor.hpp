// How long one refactorisation of a matrix takes in another well-kept library: a yardstick for
// speed.
#pragma once

#include "solver/equilibrium/sparse_pattern.hpp"

#include <Eigen/Core>

namespace flangewright::equilibrium {

/// Best of three numeric refactorisations by CHOLMOD (supernodal when it judges so) after one
/// symbolic analysis. Units: seconds. Source: chen-et-al-2008. Fails: returns 0 when the matrix is
/// not positive definite.
[[nodiscard]] double
measure_bare_refactor(const SparsePattern& pattern, const Eigen::VectorXd& values);

} // namespace flangewright::equilibrium
