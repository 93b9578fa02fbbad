// The trough: floor radius 6 between shoulders of radius 2, top at height 0.
#include "solver/tooling/surface/trough.hpp"
#include "tests/solver/tooling/surface/surface_claims.hpp"

#include <cmath>

namespace flangewright::tooling {
namespace {

constexpr double R = 6;
constexpr double r = 2;

TEST(Trough, IsADistanceFunction) {
    expect_a_distance_function(Trough(R, r), [](const SectionPoint& point) {
        const double margin = 1e-3;
        const double side = std::abs(point[0]);
        const SectionPoint from_floor(point[0], point[1] + r);
        const SectionPoint from_shoulder(side - (R + r), point[1] + r);
        // The floor's centre, each shoulder's, the middle between the shoulders, and the seams.
        return from_floor.norm() < 1 || from_shoulder.norm() < 1 || side < margin
            || std::abs(from_shoulder[0]) < margin
            || std::abs(from_shoulder[1]) < margin
            // Where the shoulders and the floor meet behind the die's face: the skeleton.
            || (from_shoulder[0] > 0 && std::abs(from_shoulder[1]) < 2);
    });
}

TEST(Trough, IsHollowBelowItsShoulders) {
    const Trough trough(R, r);
    EXPECT_NEAR(trough.at({0, -r - R}).distance, 0, 1e-12); // floor
    EXPECT_NEAR(trough.at({0, -r - R + 0.3}).distance, 0.3, 1e-12);
    EXPECT_GT(trough.at({0, -r - R + 0.3}).normal[1], 0); // off the tool, up
    EXPECT_LT(trough.at({0, -r - R - 0.3}).distance, 0);
    const Eigen::Vector2d slanted = (R - 0.5) * Eigen::Vector2d(0.6, -0.8);
    EXPECT_NEAR(trough.at(SectionPoint(0, -r) + slanted).distance, 0.5, 1e-12);
}

TEST(Trough, IsRoundAtItsShouldersAndLevelBesideThem) {
    const Trough trough(R, r);
    for (const double side : {-1.0, 1.0}) {
        EXPECT_NEAR(trough.at({side * (R + r + 3), 0.2}).distance, 0.2, 1e-12);
        // On the diagonal of the shoulder.
        const double out = r * (std::sqrt(0.5) - 1);
        const SurfaceReading reading = trough.at({side * (R - out), out});
        EXPECT_NEAR(reading.distance, 0, 1e-12);
        EXPECT_NEAR(reading.normal[0], -side * std::sqrt(0.5), 1e-12);
    }
}

TEST(Trough, JoinsShoulderAndFloorSmoothly) {
    const Trough trough(R, r);
    const SurfaceReading above = trough.at({R - 0.1, -r + 1e-9});
    const SurfaceReading below = trough.at({R - 0.1, -r - 1e-9});
    EXPECT_NEAR(above.distance, 0.1, 1e-8);
    EXPECT_NEAR(below.distance, 0.1, 1e-8);
    EXPECT_LT((above.normal - below.normal).norm(), 1e-8);
}

} // namespace
} // namespace flangewright::tooling
