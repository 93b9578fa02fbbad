// A form block of nose radius 3 and wall at 75 deg, and a leaf, set elsewhere and mirrored.
#include "solver/tooling/surface/form_block.hpp"
#include "solver/tooling/surface/leaf.hpp"
#include "solver/tooling/surface/moved_surface.hpp"
#include "tests/solver/tooling/surface/surface_claims.hpp"

#include <cmath>
#include <numbers>

namespace flangewright::tooling {
namespace {

constexpr double R = 3;
constexpr double wall = 75 * std::numbers::pi / 180;
const Eigen::Vector2d shift(2, -1.5);

std::shared_ptr<const FormBlock> block() {
    return std::make_shared<FormBlock>(R, wall);
}

TEST(MovedSurface, IsADistanceFunction) {
    for (const Facing facing : {Facing::as_made, Facing::mirrored}) {
        const double sign = facing == Facing::mirrored ? -1 : 1;
        expect_a_distance_function(MovedSurface(block(), facing, shift), [&](SectionPoint point) {
            point -= shift;
            const SectionPoint arm(sign * point[0], point[1] + R);
            const double turned = std::atan2(arm[0], arm[1]);
            const double margin = 1e-3;
            return std::abs(arm[0]) < margin || std::abs(turned - wall) * arm.norm() < margin
                || arm.norm() < 1 || (arm[1] < 0 && (turned > wall - 1 || turned < 0));
        });
    }
}

TEST(MovedSurface, MirrorsBeforeItShifts) {
    const MovedSurface moved(block(), Facing::mirrored, shift);
    EXPECT_NEAR(moved.at({9, -1}).distance, 0.5, 1e-12); // over the face, now on the right
    // On the round nose, now left of its tangent.
    const Eigen::Vector2d radial(-std::sin(0.6), std::cos(0.6));
    const SectionPoint on_nose = shift + SectionPoint(0, -R) + (R + 0.4) * radial;
    EXPECT_NEAR(moved.at(on_nose).distance, 0.4, 1e-12);
    EXPECT_LT((moved.at(on_nose).normal - radial).norm(), 1e-12);
}

TEST(MovedSurface, AsMadeAndNotShiftedIsTheShapeItself) {
    const MovedSurface moved(block(), Facing::as_made, {0, 0});
    for (const SectionPoint& point : {SectionPoint(-4, 1), SectionPoint(2, 0.5), {5, -6}}) {
        EXPECT_DOUBLE_EQ(moved.at(point).distance, block()->at(point).distance);
    }
}

TEST(MovedSurface, GoesWhereItIsTold) {
    MovedSurface moved(block(), Facing::as_made, {0, 0});
    EXPECT_DOUBLE_EQ(moved.at({-5, 0}).distance, 0);
    moved.move_to({0, -2});
    EXPECT_DOUBLE_EQ(moved.at({-5, 0}).distance, 2);
    EXPECT_DOUBLE_EQ(moved.placement().shift[1], -2);
}

// A place fixed to a mirrored, turning leaf keeps its distance when carried by the placements:
// friction goes by them.
TEST(MovedSurface, CarriesPlacesOfATurningShape) {
    const auto leaf = std::make_shared<Leaf>(R, 4.2);
    const MovedSurface moved(leaf, Facing::mirrored, shift);
    const Eigen::Vector2d place =
        SectionPoint(-7, 4.2 - R) + shift; // on the leaf while it is level
    const Eigen::Vector2d as_made = place - moved.placement().shift;
    leaf->set_angle(0.7);
    const Placement now = moved.placement();
    const double c = std::cos(now.turn);
    const double s = std::sin(now.turn);
    const SectionPoint carried =
        SectionPoint(c * as_made[0] + s * as_made[1], c * as_made[1] - s * as_made[0]) + now.shift;
    EXPECT_NEAR(moved.at(carried).distance, 0, 1e-12);
    EXPECT_LT(carried[1], place[1]); // it did go down with the leaf
}

} // namespace
} // namespace flangewright::tooling
