// The assembled residual and stiffness: one is the derivative of the other, tools and loads
// included.
#include "solver/equilibrium/sheet_system.hpp"
#include "solver/tooling/surface/form_block.hpp"
#include "tests/support/elastic_sheet.hpp"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <numbers>
#include <random>

namespace flangewright::equilibrium {
namespace {

constexpr unsigned seed = 77;
using shell::dof_per_node;

// A soft strip leaning on a form block, pushed out of shape, with loads of each kind.
struct LeaningStrip {
    support::SheetTrial trial{
        {{70000, 0.33}, support::swift(330, 0.0032, 0.22), 1, shell::gauss_layers(4)},
        support::rectangle(4, 6, 2, 3)};
    Shape shape;

    LeaningStrip() {
        std::mt19937 generator(seed);
        std::uniform_real_distribution<double> number(-1, 1);
        Problem& problem = trial.problem;
        problem.contacts = {
            {outline::BendLine::arc(20, 0.3, outline::Curve::concave),
             std::make_shared<tooling::FormBlock>(3, 0.5 * std::numbers::pi),
             {.stiffness = 4000, .ramp = 0.02},
             tooling::Face::block,
             {}},
        };
        trial.state.positions.row(1).array() -= 2; // across the bend tangent
        trial.state.positions.row(2).array() += 0.45; // 0.05 mm into the face
        for (int node = 0; node < trial.model.n_nodes(); ++node) {
            problem.contacts.front().nodes.push_back(node);
            problem.node_axes[static_cast<std::size_t>(node)] =
                Eigen::AngleAxisd(0.1 * node, Eigen::Vector3d::UnitZ()).toRotationMatrix();
            trial.state.positions.col(node) +=
                0.02 * Eigen::Vector3d(number(generator), number(generator), number(generator));
            trial.state.directors.col(node) +=
                0.1 * Eigen::Vector3d(number(generator), number(generator), 0);
            problem.loads.on_positions.col(node).setConstant(number(generator));
            problem.loads.on_directors.col(node) << number(generator), number(generator),
                number(generator);
        }
        trial.state.directors.colwise().normalize();
        shape = shape_of(trial.state, problem.node_axes);
    }
};

Eigen::MatrixXd dense(const SheetSystem& system) {
    const SparsePattern& pattern = system.pattern();
    Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero(pattern.n_dof, pattern.n_dof);
    for (int column = 0; column < pattern.n_dof; ++column) {
        const auto at = static_cast<std::size_t>(column);
        for (int k = pattern.column_start[at]; k < pattern.column_start[at + 1]; ++k) {
            const int row = pattern.row[static_cast<std::size_t>(k)];
            matrix(row, column) = matrix(column, row) = system.stiffness()[k];
        }
    }
    return matrix;
}

TEST(SheetSystem, StiffnessIsTheDerivativeOfTheResidual) {
    LeaningStrip strip;
    SheetSystem& system = strip.trial.system;
    ASSERT_TRUE(system.balance(strip.trial.problem, strip.shape, true).is_good);
    ASSERT_GT(deepest_penetration(strip.trial.problem, strip.shape), 0.03);
    const Eigen::MatrixXd stiffness = dense(system);
    const int n_dof = system.pattern().n_dof;
    constexpr double h = 1e-7;
    double worst = 0;
    for (int dof = 0; dof < n_dof; ++dof) {
        const auto residual_at = [&](double step) {
            Shape moved = strip.shape;
            move_shape(
                moved, strip.trial.problem.node_axes, step * Eigen::VectorXd::Unit(n_dof, dof)
            );
            return system.balance(strip.trial.problem, moved, false).residual;
        };
        const Eigen::VectorXd slope = (residual_at(h) - residual_at(-h)) / (2 * h);
        worst = std::max(worst, (slope - stiffness.col(dof)).norm() / stiffness.col(dof).norm());
    }
    RecordProperty("worst", std::to_string(worst));
    EXPECT_LT(worst, 1e-6) << "seed " << seed;
}

TEST(SheetSystem, ToolForcesAsDeadLoadsKeepTheBalance) {
    LeaningStrip strip;
    Problem& problem = strip.trial.problem;
    const Eigen::VectorXd with_tools =
        strip.trial.system.balance(problem, strip.shape, false).residual;
    problem.loads.add(tool_forces(problem, strip.shape), 1);
    problem.contacts.clear();
    const Eigen::VectorXd with_loads =
        strip.trial.system.balance(problem, strip.shape, false).residual;
    EXPECT_LT((with_tools - with_loads).norm(), 1e-10 * with_tools.norm());
}

TEST(SheetSystem, HeldDegreesOfFreedomGetUnitRowsAndDoNotCount) {
    LeaningStrip strip;
    const Balance loose = strip.trial.system.balance(strip.trial.problem, strip.shape, true);
    strip.trial.clamp({0, 5});
    const Balance held = strip.trial.system.balance(strip.trial.problem, strip.shape, true);
    const Eigen::MatrixXd stiffness = dense(strip.trial.system);
    for (const int dof : {0, 4, 5 * dof_per_node + 2}) {
        EXPECT_EQ((stiffness.col(dof) - Eigen::VectorXd::Unit(stiffness.rows(), dof)).norm(), 0);
    }
    EXPECT_LT(held.norm, loose.norm);
    EXPECT_EQ((held.residual - loose.residual).norm(), 0); // reactions stay readable
}

TEST(MoveShape, KeepsDirectorsUnitAndBasesSquareToThem) {
    LeaningStrip strip;
    Shape shape = strip.shape;
    const int n_dof = strip.trial.system.pattern().n_dof;
    for (int step = 0; step < 50; ++step) {
        move_shape(shape, strip.trial.problem.node_axes, 0.3 * Eigen::VectorXd::Random(n_dof));
    }
    for (Eigen::Index node = 0; node < shape.directors.cols(); ++node) {
        const Eigen::Vector3d director = shape.directors.col(node);
        const auto& basis = shape.rotation_bases[static_cast<std::size_t>(node)];
        EXPECT_NEAR(director.norm(), 1, 1e-12);
        EXPECT_LT((basis.transpose() * director).norm(), 1e-12);
        EXPECT_LT((basis.transpose() * basis - Eigen::Matrix2d::Identity()).norm(), 1e-12);
    }
}

} // namespace
} // namespace flangewright::equilibrium
