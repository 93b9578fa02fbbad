#include "solver/process/flat_fit.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <vector>

namespace flangewright::process {

namespace {

// Takes the planes out of columns, which the weights' roots have scaled.
Eigen::MatrixXd without_planes(const FlatFit& fit, const Eigen::MatrixXd& columns) {
    const Eigen::VectorXd root = (fit.weight / fit.weight.sum()).cwiseSqrt();
    const Eigen::MatrixXd planes = root.asDiagonal() * fit.planes;
    const Eigen::MatrixXd scaled = root.asDiagonal() * columns;
    return scaled - planes * planes.colPivHouseholderQr().solve(scaled);
}

// Least squares with the amounts in `held` given; the others of `total` are found.
void solve_free(
    const Eigen::MatrixXd& effect,
    const Eigen::VectorXd& wanted,
    double damping,
    const std::vector<bool>& held,
    Eigen::VectorXd& total
) {
    const Eigen::Index n = total.size();
    Eigen::MatrixXd normal = effect.transpose() * effect;
    normal.diagonal().array() += damping * damping;
    Eigen::VectorXd right = effect.transpose() * wanted;
    for (Eigen::Index k = 0; k < n; ++k) {
        if (held[static_cast<std::size_t>(k)]) {
            normal.row(k).setZero();
            normal(k, k) = 1;
            right[k] = total[k];
        }
    }
    total = normal.partialPivLu().solve(right);
}

} // namespace

Eigen::VectorXd out_of_flat(const FlatFit& fit, const Eigen::VectorXd& heights) {
    return without_planes(fit, heights).col(0);
}

Eigen::VectorXd flattening_amounts(const FlatFit& fit) {
    const Eigen::MatrixXd effect = without_planes(fit, fit.influence);
    const double largest = effect.jacobiSvd().singularValues().maxCoeff();
    if (!(largest > 0)) {
        return Eigen::VectorXd::Zero(fit.amounts.size());
    }
    // Asked for in amounts as they are in the end, so that all of them are kept small.
    const Eigen::VectorXd wanted = effect * fit.amounts - out_of_flat(fit, fit.heights);
    std::vector<bool> held(static_cast<std::size_t>(fit.amounts.size()), false);
    Eigen::VectorXd total = fit.amounts;
    for (std::size_t pass = 0; pass <= held.size(); ++pass) {
        solve_free(effect, wanted, fit.damping * largest, held, total);
        Eigen::Index worst = 0;
        if (total.cwiseAbs().maxCoeff(&worst) <= fit.most * (1 + 1e-12)) {
            break;
        }
        total[worst] = std::copysign(fit.most, total[worst]);
        held[static_cast<std::size_t>(worst)] = true;
    }
    return total - fit.amounts;
}

} // namespace flangewright::process
