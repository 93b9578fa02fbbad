// The leaf: a plane 4.2 mm off the centre of a nose of radius 3, turning about that centre.
#include "solver/tooling/surface/leaf.hpp"
#include "tests/solver/tooling/surface/surface_claims.hpp"

#include <cmath>
#include <numbers>

namespace flangewright::tooling {
namespace {

constexpr double R = 3;
constexpr double reach = 4.2;

TEST(Leaf, IsADistanceFunction) {
    Leaf leaf(R, reach);
    for (const double angle : {0.0, 0.4, 1.2, 1.57, 1.9}) {
        leaf.set_angle(angle);
        expect_a_distance_function(leaf, [](const SectionPoint&) { return false; });
    }
}

TEST(Leaf, LiesOnTheSheetBeforeItTurns) {
    Leaf leaf(R, reach);
    EXPECT_NEAR(leaf.at({10, reach - R}).distance, 0, 1e-12);
    EXPECT_NEAR(leaf.at({10, reach - R - 0.2}).distance, 0.2, 1e-12); // the sheet lies below it
}

TEST(Leaf, StandsUprightPastTheWallAfterAQuarterTurn) {
    Leaf leaf(R, reach);
    leaf.set_angle(0.5 * std::numbers::pi);
    EXPECT_NEAR(leaf.at({reach, -10}).distance, 0, 1e-12);
    EXPECT_NEAR(leaf.at({reach - 1, -10}).distance, 1, 1e-12);
    EXPECT_NEAR(leaf.at({reach + 1, -10}).distance, -1, 1e-12);
}

TEST(Leaf, KeepsItsDistanceFromTheNoseWhileTurning) {
    Leaf leaf(R, reach);
    for (double angle = 0; angle < 2; angle += 0.1) {
        leaf.set_angle(angle);
        EXPECT_NEAR(leaf.at({0, -R}).distance, reach, 1e-12);
    }
}

} // namespace
} // namespace flangewright::tooling
