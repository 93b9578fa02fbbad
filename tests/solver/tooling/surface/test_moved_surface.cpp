// A form block of nose radius 3 and wall at 75 deg, and a leaf, set elsewhere, turned and mirrored.
#include "solver/tooling/surface/form_block.hpp"
#include "solver/tooling/surface/leaf.hpp"
#include "solver/tooling/surface/moved_surface.hpp"
#include "tests/solver/tooling/surface/surface_claims.hpp"

#include <Eigen/Geometry>

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

// Turned by 110 deg, face down; and the same facing the other way.
ShapeAxes turned_axes() {
    return Eigen::Rotation2D<double>(110 * std::numbers::pi / 180).toRotationMatrix();
}

TEST(MovedSurface, IsADistanceFunction) {
    for (const ShapeAxes& axes : {
             ShapeAxes(ShapeAxes::Identity()),
             mirrored_axes(),
             turned_axes(),
             ShapeAxes(turned_axes() * mirrored_axes()),
         }) {
        expect_a_distance_function(MovedSurface(block(), axes, shift), [&](SectionPoint point) {
            point = axes.transpose() * (point - shift);
            const SectionPoint arm(point[0], point[1] + R);
            const double turned = std::atan2(arm[0], arm[1]);
            const double margin = 1e-3;
            return std::abs(arm[0]) < margin || std::abs(turned - wall) * arm.norm() < margin
                || arm.norm() < 1 || (arm[1] < 0 && (turned > wall - 1 || turned < 0));
        });
    }
}

TEST(MovedSurface, MirrorsBeforeItShifts) {
    const MovedSurface moved(block(), mirrored_axes(), shift);
    EXPECT_NEAR(moved.at({9, -1}).distance, 0.5, 1e-12); // over the face, now on the right
    // On the round nose, now left of its tangent.
    const Eigen::Vector2d radial(-std::sin(0.6), std::cos(0.6));
    const SectionPoint on_nose = shift + SectionPoint(0, -R) + (R + 0.4) * radial;
    EXPECT_NEAR(moved.at(on_nose).distance, 0.4, 1e-12);
    EXPECT_LT((moved.at(on_nose).normal - radial).norm(), 1e-12);
}

TEST(MovedSurface, LiesAlongTheAxesItIsGiven) {
    ShapeAxes axes; // its first axis down, its second toward the flange
    axes << 0, 1, -1, 0;
    const MovedSurface moved(block(), axes, shift);
    // Beside the face, which now stands upright and looks toward the flange.
    EXPECT_NEAR(moved.at(shift + SectionPoint(0.7, 5)).distance, 0.7, 1e-12);
    EXPECT_LT(
        (moved.at(shift + SectionPoint(0.7, 5)).normal - Eigen::Vector2d(1, 0)).norm(), 1e-12
    );
    // On the nose, which begins at the shift and rounds away below.
    const SectionPoint centre = shift + SectionPoint(-R, 0);
    const Eigen::Vector2d radial(std::cos(0.6), -std::sin(0.6));
    EXPECT_NEAR(moved.at(centre + (R + 0.4) * radial).distance, 0.4, 1e-12);
}

TEST(MovedSurface, AsMadeAndNotShiftedIsTheShapeItself) {
    const MovedSurface moved(block(), ShapeAxes::Identity(), {0, 0});
    for (const SectionPoint& point : {SectionPoint(-4, 1), SectionPoint(2, 0.5), {5, -6}}) {
        EXPECT_DOUBLE_EQ(moved.at(point).distance, block()->at(point).distance);
    }
}

TEST(MovedSurface, GoesWhereItIsTold) {
    MovedSurface moved(block(), ShapeAxes::Identity(), {0, 0});
    EXPECT_DOUBLE_EQ(moved.at({-5, 0}).distance, 0);
    moved.move_to({0, -2});
    EXPECT_DOUBLE_EQ(moved.at({-5, 0}).distance, 2);
    EXPECT_DOUBLE_EQ(moved.placement().shift[1], -2);
}

// A place fixed to a turning leaf set elsewhere keeps its distance when carried by the placements:
// friction goes by them.
TEST(MovedSurface, CarriesPlacesOfATurningShape) {
    for (const ShapeAxes& axes : {mirrored_axes(), turned_axes()}) {
        const auto leaf = std::make_shared<Leaf>(R, 4.2);
        const MovedSurface moved(leaf, axes, shift);
        const Eigen::Vector2d place =
            axes * SectionPoint(7, 4.2 - R) + shift; // on the leaf while it is level
        const Eigen::Vector2d from_placement = place - moved.placement().shift;
        leaf->set_angle(0.7);
        const Placement now = moved.placement();
        const double c = std::cos(now.turn);
        const double s = std::sin(now.turn);
        const SectionPoint carried = SectionPoint(
                                         c * from_placement[0] + s * from_placement[1],
                                         c * from_placement[1] - s * from_placement[0]
                                     )
            + now.shift;
        EXPECT_NEAR(moved.at(carried).distance, 0, 1e-12);
        const Eigen::Vector2d moved_by = axes.transpose() * (carried - place);
        EXPECT_LT(moved_by[1], -1); // it did go with the leaf
    }
}

// What varies along the line goes on doing so, turned and shifted like the rest.
TEST(MovedSurface, KeepsWhatVariesAlongTheLine) {
    constexpr double h = 1e-4;
    const auto bevelled =
        std::make_shared<FormBlock>(R, 1.8, outline::Profile({{0, 1.2}, {40, 1.8}}));
    for (const ShapeAxes& axes : {mirrored_axes(), turned_axes()}) {
        const MovedSurface moved(bevelled, axes, shift);
        const SectionPoint point = axes * SectionPoint(3.5, -9) + shift;
        const ChangingReading here = moved.at_station(point, 20);
        const ChangingReading past = moved.at_station(point, 20 + h);
        const ChangingReading before = moved.at_station(point, 20 - h);
        EXPECT_NEAR(
            here.surface.distance, bevelled->at_station({3.5, -9}, 20).surface.distance, 1e-12
        );
        EXPECT_NEAR(here.slope, (past.surface.distance - before.surface.distance) / (2 * h), 1e-6);
        EXPECT_GT(std::abs(here.slope), 0.05);
        const Eigen::Vector2d turn = (past.surface.normal - before.surface.normal) / (2 * h);
        EXPECT_LT((here.turn - turn).norm(), 1e-6);
    }
    const auto leaf = std::make_shared<Leaf>(R, 4.2);
    leaf->set_angle(0.4);
    const MovedSurface moved(leaf, mirrored_axes(), shift);
    EXPECT_EQ(moved.placement_at(7).turn, moved.placement().turn);
    EXPECT_EQ(moved.placement_at(7).shift, moved.placement().shift);
}

} // namespace
} // namespace flangewright::tooling
