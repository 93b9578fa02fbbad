// Friction in the balance of a sheet: what can be held by it, and what slides.
#include "solver/equilibrium/friction_rounds.hpp"
#include "solver/tooling/surface/form_block.hpp"
#include "tests/support/elastic_sheet.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::equilibrium {
namespace {

using support::SheetTrial;

constexpr double mu = 0.2;

void put_on_block(SheetTrial& trial, double nose_radius, const tooling::ContactLaw& law) {
    std::vector<int> nodes(static_cast<std::size_t>(trial.model.n_nodes()));
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        nodes[i] = static_cast<int>(i);
    }
    trial.problem.contacts = {
        {outline::BendLine::straight(10),
         std::make_shared<tooling::FormBlock>(nose_radius, 0.5 * std::numbers::pi),
         law,
         tooling::Face::block,
         nodes,
         mu,
         0.1 * law.stiffness}};
}

// A square plate that lies on the block's face, pressed on and pushed aside.
class PlateOnTheFace : public testing::Test {
protected:
    static constexpr double side = 8;
    static constexpr double weight = 40; // N
    static constexpr double half_thickness = 0.5;

    PlateOnTheFace()
        : trial(
            support::elastic_section(70000, 0.3, 2 * half_thickness),
            support::map_patch(
                4,
                4,
                [](double along, double across) {
                    return Eigen::Vector3d(side * along, side * (across - 1), half_thickness);
                }
            )
        ) {
        put_on_block(trial, 3, {.stiffness = 1000, .ramp = 1e-3});
        trial.problem.anchors = trial.patch.positions;
    }

    // Pressed on first, then pushed along the bend line or square to it.
    PathReport press_and_push(double push, const Eigen::Vector3d& heading) {
        PathLimits limits;
        limits.first_step = limits.largest_step = 0.25;
        limits.smallest_step = 1e-3;
        limits.newton.tolerance = 1e-8;
        limits.newton.smallest_scale = weight; // a plate evenly pressed has no forces within
        const auto all_over = [this](const Eigen::Vector3d& force) {
            DeadLoads loads = DeadLoads::none(trial.model.n_nodes());
            for (int node = 0; node < trial.model.n_nodes(); ++node) {
                loads.on_positions.col(node) = force * trial.model.node_area[node] / (side * side);
            }
            return loads;
        };
        const DeadLoads down = all_over({0, 0, -weight});
        const DeadLoads aside = all_over(push * heading);
        Path path;
        path.set = [&](Problem& now, double share) {
            now.loads = DeadLoads::none(trial.model.n_nodes());
            now.loads.add(down, std::min(1.0, 2 * share));
            now.loads.add(aside, std::max(0.0, 2 * share - 1));
            // Nothing else holds the plate before it is pressed on.
            now.anchor_stiffness = share <= 0.5 ? 0.5 : spring;
        };
        return follow_path(
            {trial.system, trial.solver, 1}, trial.problem, trial.state, path, limits, {}
        );
    }
    [[nodiscard]] double moved(const Eigen::Vector3d& heading) const {
        return heading.dot((trial.state.positions - trial.patch.positions).rowwise().mean());
    }

    SheetTrial trial;
    double spring = 0; ///< per area, MPa/mm
};

TEST_F(PlateOnTheFace, IsHeldByLessThanItsFriction) {
    const Eigen::Vector3d heading(0.6, 0.8, 0);
    const double push = 0.95 * mu * weight;
    EXPECT_EQ(press_and_push(push, heading).end, PathEnd::done);
    // Only the give of sticking: force over stiffness per area and area. The push, half a thickness
    // over the face, tips the plate a little.
    const double give = push / (100 * side * side);
    EXPECT_NEAR(moved(heading), give, 0.02 * give);
}

TEST_F(PlateOnTheFace, CannotBeHeldByMore) {
    EXPECT_EQ(press_and_push(1.05 * mu * weight, {0.6, 0.8, 0}).end, PathEnd::no_equilibrium);
}

TEST_F(PlateOnTheFace, SlidesUntilSpringsTakeWhatFrictionLeaves) {
    spring = 0.5;
    const Eigen::Vector3d heading(0.6, -0.8, 0);
    const double push = 3 * mu * weight;
    ASSERT_EQ(press_and_push(push, heading).end, PathEnd::done);
    const double springs = spring * side * side * moved(heading);
    // The springs carry next to nothing of the weight: the face is 2000 times as stiff.
    EXPECT_NEAR(springs, push - mu * weight, 1e-3 * push);
}

} // namespace
} // namespace flangewright::equilibrium
