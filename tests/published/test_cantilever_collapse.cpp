// A cantilever strip of perfectly plastic sheet under an end force: deflection past first yield,
// and the load at which a hinge has formed. Closed forms of the beam with a rectangular section,
// from memory (prager-hodge-1951), checked by integrating the moment's curvature. Young's modulus
// is a hundred times that of steel: the loads do not depend on it and the tip moves by a 400th of
// the length at most. The strip is a beam, not a wide plate: nothing holds its lateral contraction.
#include "tests/support/curved_sheet.hpp"
#include "tests/support/load_path.hpp"
#include "tests/support/verification_record.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

namespace flangewright {
namespace {

using Eigen::Vector3d;

constexpr double E = 20e6;
constexpr double flow = 250;
constexpr double h = 20;
// Well below the thickness: in a wide hinge contraction across is held by what stays elastic beside
// it (width 20: load 2.9 % high, 5: 1.6 %).
constexpr double width = 5;
constexpr double length = 1000;
constexpr int n_layers = 24; // a full section carries 0.1 % too much

constexpr double plastic_force = 0.25 * flow * h * h * width / length;
constexpr double yield_force = plastic_force / 1.5;
// P L^3/(3 E I) at first yield.
constexpr double yield_deflection = 2 * flow * length * length / (3 * E * h);

// Over the deflection at first yield, from first yield (1) to collapse (1.5: 20/9).
double deflection_at(double force_over_yield) {
    const double f = force_over_yield;
    return (5 - (3 + f) * std::sqrt(3 - 2 * f)) / (f * f);
}

// Half the width, the middle line first. Nothing holds the root from curving across.
class Strip : public support::ShellTrial {
public:
    explicit Strip(int n)
        : ShellTrial(
            {{E, 0},
             std::make_shared<support::PerfectFlow>(flow),
             h,
             shell::gauss_layers(n_layers)},
            support::curve_patch(
                n,
                1,
                [](double along, double across) {
                    // Lines draw together toward the root.
                    const double x = along * (0.1 + 0.9 * along);
                    return Vector3d(length * x, 0.5 * width * across, 0);
                }
            )
        ) {
        mirror(support::line_across(patch, 0), Vector3d::UnitY());
        const std::vector<int> root = patch.line(0);
        hold(root, Vector3d::UnitX());
        hold_lean(root, Vector3d::UnitX());
        hold(std::array{root.front()}, Vector3d::UnitZ());
    }

    [[nodiscard]] support::LoadPath path() {
        equilibrium::DeadLoads full = equilibrium::DeadLoads::none(model.n_nodes());
        for (const int node : patch.line(patch.n_long)) {
            full.on_positions(2, node) = -0.25 * yield_force;
        }
        return {*this, full, patch.node(patch.n_long, 0), -Vector3d::UnitZ(), {.tolerance = 1e-5}};
    }
};

TEST(PlasticCantilever, FollowsTheBeamToItsHinge) {
    support::Figure figure{
        .table = "collapse",
        .check = "cantilever strip, end force",
        .source = "prager-hodge-1951, closed form from memory"};
    for (const int n : {20, 40}) {
        Strip strip(n);
        support::LoadPath path = strip.path();
        figure.mesh = support::mesh_name(n, 1);
        const auto judge = [&](const char* name, double times, double expected, int n_steps) {
            ASSERT_TRUE(path.move_to(times * yield_deflection, n_steps)) << name;
            support::compare_finest(
                n == 40, figure.of(name, path.now().load, expected), {.width = 0.02}
            );
        };
        judge("force over first yield at the deflection of 1.2", deflection_at(1.2), 1.2, 4);
        judge("force over first yield at the deflection of 1.4", deflection_at(1.4), 1.4, 4);
        judge("force over first yield at 6 times its deflection", 6, 1.5, 12);
    }
}

} // namespace
} // namespace flangewright
