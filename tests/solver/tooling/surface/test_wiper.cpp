// The wiper: face toward the wall at 4.4 mm, corner radius 2 mm, underside moving down.
#include "solver/tooling/surface/wiper.hpp"
#include "tests/solver/tooling/surface/surface_claims.hpp"

#include <cmath>

namespace flangewright::tooling {
namespace {

constexpr double face = 4.4;
constexpr double corner = 2;

TEST(Wiper, IsADistanceFunction) {
    Wiper wiper(face, corner);
    for (const double underside : {1.0, -4.0}) {
        wiper.set_underside(underside);
        const SectionPoint centre(face + corner, underside + corner);
        expect_a_distance_function(wiper, [&](const SectionPoint& point) {
            const double margin = 1e-3;
            const bool is_past_and_above = point[0] > centre[0] && point[1] > centre[1];
            return is_past_and_above // deep inside: the reading of one side is given
                || std::abs(point[0] - centre[0]) < margin
                || std::abs(point[1] - centre[1]) < margin || (point - centre).norm() < 1;
        });
    }
}

TEST(Wiper, StandsAtItsClearanceAndAtItsHeight) {
    Wiper wiper(face, corner);
    wiper.set_underside(-3);
    EXPECT_DOUBLE_EQ(wiper.at({face - 0.3, 5}).distance, 0.3);
    EXPECT_DOUBLE_EQ(wiper.at({face + 0.3, 5}).distance, -0.3);
    EXPECT_DOUBLE_EQ(wiper.at({face + corner + 4, -3.6}).distance, 0.6);
    // The corner's nearest place on the diagonal: (sqrt2 - 1) radii off the sharp corner.
    EXPECT_NEAR(wiper.at({face, -3}).distance, corner * (std::sqrt(2.0) - 1), 1e-12);
    EXPECT_LT(wiper.at({face - 0.3, 5}).normal[0], 0); // off the tool, toward the wall
    EXPECT_LT(wiper.at({20, -5}).normal[1], 0); // off the tool, down
}

TEST(Wiper, MovesAsItIsTold) {
    Wiper wiper(face, corner);
    wiper.set_underside(1);
    EXPECT_GT(wiper.at({10, 0.5}).distance, 0);
    wiper.set_underside(0);
    EXPECT_LT(wiper.at({10, 0.5}).distance, 0);
}

} // namespace
} // namespace flangewright::tooling
