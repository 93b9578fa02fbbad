// A strip pulled round the nose with friction: the rope round a bollard, T1 = T2 exp(mu angle).
// Source: euler-eytelwein, docs/sources.md.
#include "solver/tooling/surface/form_block.hpp"
#include "tests/support/curved_sheet.hpp"
#include "tests/support/verification_record.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright {
namespace {

constexpr double R = 10;
constexpr double t = 0.05;
constexpr double straight = 4;

// Half of the strip's middle line lies on the face, half hangs down the wall.
Eigen::Vector3d place(double along, double across) {
    const double bend = 0.5 * std::numbers::pi * (R + 0.5 * t);
    const double s = across * (bend + 2 * straight) - straight; // from the bend tangent
    if (s < 0) {
        return {along, s, 0.5 * t};
    }
    if (s > bend) {
        return {along, R + 0.5 * t, -R - (s - bend)};
    }
    const double angle = s / (R + 0.5 * t);
    return {along, (R + 0.5 * t) * std::sin(angle), (R + 0.5 * t) * std::cos(angle) - R};
}

// The strip is pulled at the web's end and held at the other; what is held over the pull.
double pull_left(double mu, int n_elements, double step = 0.05) {
    support::ShellTrial trial(
        support::elastic_section(1000, 0, t), support::curve_patch(1, n_elements, place)
    );
    std::vector<int> nodes;
    for (int node = 0; node < trial.model.n_nodes(); ++node) {
        nodes.push_back(node);
        trial.fix(node, 0);
        trial.fix(node, 3);
    }
    trial.problem.contacts = {
        {outline::BendLine::straight(10),
         std::make_shared<tooling::FormBlock>(R, 0.5 * std::numbers::pi),
         {.stiffness = 50, .ramp = 1e-3},
         tooling::Face::block,
         nodes,
         mu,
         5}};
    equilibrium::DeadLoads pull = equilibrium::DeadLoads::none(trial.model.n_nodes());
    constexpr double force = 0.5; // 1 % of stretch
    for (int i = 0; i <= 1; ++i) {
        trial.fix(trial.patch.node(i, n_elements), 2);
        pull.on_positions(1, trial.patch.node(i, 0)) = -0.5 * force;
    }
    equilibrium::PathLimits limits;
    limits.newton.tolerance = 1e-6;
    limits.first_step = limits.largest_step = step;
    EXPECT_EQ(trial.load(pull, 0, 1, limits).end, equilibrium::PathEnd::done);
    const Eigen::VectorXd reactions = trial.reactions();
    double held = 0;
    for (int i = 0; i <= 1; ++i) {
        held -= reactions[trial.patch.node(i, n_elements) * shell::dof_per_node + 2];
    }
    return held / force;
}

TEST(StripRoundTheNose, LosesPullAsARopeRoundABollard) {
    for (const double mu : {0.1, 0.2, 0.4}) {
        for (const int n_elements : {24, 96}) {
            support::compare_finest(
                n_elements == 96,
                {.table = "rope",
                 .check = "strip round a quarter nose, friction " + std::to_string(mu).substr(0, 3),
                 .source = "euler-eytelwein, closed form",
                 .figure = "pull left past the nose, share",
                 .mesh = std::to_string(n_elements) + " along the strip",
                 .reference = std::exp(-mu * 0.5 * std::numbers::pi),
                 .measured = pull_left(mu, n_elements)},
                {.width = 0.01}
            );
        }
    }
}

// All in one increment friction begins with no push known: only going on until push and friction
// agree brings it to the same.
TEST(StripRoundTheNose, LosesAsMuchInOneIncrementAsInTwenty) {
    EXPECT_NEAR(pull_left(0.4, 24, 1), pull_left(0.4, 24), 1e-4);
}

TEST(StripRoundTheNose, LosesNothingWithoutFriction) {
    EXPECT_NEAR(pull_left(0, 24), 1, 1e-3); // what the strip's own bending takes
}

} // namespace
} // namespace flangewright
