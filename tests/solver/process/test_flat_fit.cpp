// Amounts that flatten heights by least squares.
#include "solver/process/flat_fit.hpp"

#include <gtest/gtest.h>

namespace flangewright::process {
namespace {

// Places on a line, with two shapes that amounts of them add: an arch and a wave.
FlatFit line_fit() {
    constexpr int n = 41;
    FlatFit fit;
    const Eigen::VectorXd x = Eigen::VectorXd::LinSpaced(n, -1, 1);
    fit.planes = Eigen::MatrixXd::Ones(n, 2);
    fit.planes.col(1) = x;
    fit.influence.resize(n, 2);
    fit.influence.col(0) = 20 * x.array().square();
    fit.influence.col(1) = 10 * x.array().cube();
    fit.weight = Eigen::VectorXd::Ones(n);
    fit.amounts = Eigen::VectorXd::Zero(2);
    return fit;
}

TEST(FlatFit, FindsTheAmountsThatMadeItUneven) {
    FlatFit fit = line_fit();
    fit.damping = 1e-6;
    const Eigen::Vector2d made(0.012, -0.004);
    fit.heights = fit.influence * made + 3 * fit.planes.col(0) - fit.planes.col(1);
    const Eigen::VectorXd found = flattening_amounts(fit);
    EXPECT_LT((found + made).cwiseAbs().maxCoeff(), 1e-8);
    EXPECT_LT(out_of_flat(fit, fit.heights + fit.influence * found).norm(), 1e-6);
}

TEST(FlatFit, LeavesAPlaneAlone) {
    FlatFit fit = line_fit();
    fit.heights = 2 * fit.planes.col(0) + 0.3 * fit.planes.col(1);
    EXPECT_LT(flattening_amounts(fit).norm(), 1e-12);
    EXPECT_LT(out_of_flat(fit, fit.heights).norm(), 1e-12);
}

TEST(FlatFit, HoldsAmountsWithinTheMostAndFindsTheOthersAnew) {
    FlatFit fit = line_fit();
    fit.damping = 1e-6;
    fit.amounts << 0.02, 0.001;
    fit.heights = fit.influence * Eigen::Vector2d(-0.05, 0.004);
    const Eigen::VectorXd total = fit.amounts + flattening_amounts(fit);
    EXPECT_DOUBLE_EQ(total[0], fit.most);
    EXPECT_NEAR(total[1], -0.003, 1e-6); // arch and wave don't mix
}

TEST(FlatFit, AsksForLessWithMoreDamping) {
    FlatFit fit = line_fit();
    fit.heights = fit.influence * Eigen::Vector2d(0, 0.01);
    double before = 0.01;
    for (const double damping : {0.02, 0.1, 0.5}) {
        fit.damping = damping;
        const double asked = std::abs(flattening_amounts(fit)[1]);
        EXPECT_LT(asked, before);
        before = asked;
    }
}

// Weighted with the places' areas: a place counted twice is a place of twice the weight.
TEST(FlatFit, WeighsPlacesByTheirShare) {
    FlatFit fit = line_fit();
    fit.heights = Eigen::VectorXd::LinSpaced(41, 0, 1).array().exp();
    FlatFit doubled = fit;
    doubled.weight[7] = 2;
    const Eigen::Index n = fit.heights.size();
    fit.heights.conservativeResize(n + 1);
    fit.heights[n] = fit.heights[7];
    fit.weight.conservativeResize(n + 1);
    fit.weight[n] = 1;
    fit.planes.conservativeResize(n + 1, Eigen::NoChange);
    fit.planes.row(n) = fit.planes.row(7);
    fit.influence.conservativeResize(n + 1, Eigen::NoChange);
    fit.influence.row(n) = fit.influence.row(7);
    EXPECT_LT((flattening_amounts(fit) - flattening_amounts(doubled)).norm(), 1e-12);
}

TEST(FlatFit, AddsNothingWhereNothingHelps) {
    FlatFit fit = line_fit();
    fit.influence.setZero();
    fit.heights = fit.planes.col(1).array().square();
    EXPECT_EQ(flattening_amounts(fit), Eigen::VectorXd::Zero(2));
}

} // namespace
} // namespace flangewright::process
