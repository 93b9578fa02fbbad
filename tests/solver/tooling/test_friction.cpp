// Friction of one node: force and stiffness are the derivatives of one energy, the force never
// exceeds its limit, and what sticks goes with its tool.
#include "solver/tooling/friction.hpp"
#include "solver/tooling/surface/leaf.hpp"
#include "solver/tooling/surface/wiper.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

#include <functional>

namespace flangewright::tooling {
namespace {

using outline::BendLine;
using outline::Curve;

Sticking sticking() {
    return {
        .place = {1, 2, 3},
        .slip = {0.0003, -0.0002, 0.0001},
        .normal = Eigen::Vector3d(0.2, 0.5, 0.7).normalized(),
        .limit = 1.5,
        .stiffness = 700,
    };
}

// A move of the touching point along the tool and off it.
Eigen::Vector3d moved(double far) {
    return Eigen::Vector3d(1, 2, 3) + far * Eigen::Vector3d(0.6, -0.4, 0.3);
}

TEST(Friction, StiffnessIsTheDerivativeOfForceStickingAndSliding) {
    for (const double far : {0.0008, 0.02}) {
        const FrictionReading here = read_friction(sticking(), moved(far));
        EXPECT_EQ(here.slides, far > 0.01);
        constexpr double h = 1e-6;
        Eigen::Matrix3d slope;
        for (int i = 0; i < 3; ++i) {
            const Eigen::Vector3d aside = h * Eigen::Vector3d::Unit(i);
            slope.col(i) = (read_friction(sticking(), moved(far) + aside).gradient
                            - read_friction(sticking(), moved(far) - aside).gradient)
                / (2 * h);
        }
        EXPECT_LT((slope - here.stiffness).norm(), 1e-6 * here.stiffness.norm());
        EXPECT_LT((here.stiffness - here.stiffness.transpose()).norm(), 1e-12);
    }
}

TEST(Friction, SlidesAtItsLimitAgainstTheSlip) {
    const FrictionReading reading = read_friction(sticking(), moved(0.02));
    EXPECT_NEAR(reading.gradient.norm(), sticking().limit, 1e-12);
    EXPECT_GT(reading.gradient.dot(moved(0.02) - sticking().place), 0); // force is minus gradient
    EXPECT_NEAR(reading.gradient.dot(sticking().normal), 0, 1e-12);
    // The give left is what the limit bends it by.
    EXPECT_NEAR(reading.slip.norm(), sticking().limit / sticking().stiffness, 1e-12);
}

TEST(Friction, SticksBelowItsLimit) {
    const FrictionReading reading = read_friction(sticking(), moved(0.0008));
    EXPECT_FALSE(reading.slides);
    EXPECT_LT(reading.gradient.norm(), sticking().limit);
    EXPECT_GT(reading.gradient.norm(), 0);
}

TEST(Friction, DoesNotFeelTheMoveOffTheTool) {
    Sticking fresh = sticking();
    fresh.slip.setZero();
    EXPECT_TRUE(read_friction(fresh, fresh.place + 0.3 * fresh.normal).gradient.isZero(1e-12));
}

TEST(Friction, IsNothingWithoutPush) {
    Sticking loose = sticking();
    loose.limit = 0;
    const FrictionReading reading = read_friction(loose, moved(0.02));
    EXPECT_TRUE(reading.gradient.isZero());
    EXPECT_TRUE(reading.stiffness.isZero());
    EXPECT_TRUE(reading.slip.isZero());
}

// A point carried along keeps its distance from the tool and from a second point, its direction
// its angle to the tool.
void expect_to_go_along(
    RigidSurface& surface, const std::function<void()>& move, const BendLine& line
) {
    const auto reading = [&](const Eigen::Vector3d& point) {
        return surface.at({line.locate(point).distance, point.z()});
    };
    const Eigen::Vector3d point = line.point({5, 6}) + Eigen::Vector3d(0, 0, -1.5);
    const Eigen::Vector3d direction(0.3, 0.5, -0.2);
    const auto into_tool = [&](const Eigen::Vector3d& at, const Eigen::Vector3d& heading) {
        const outline::LineFrame frame = line.frame(line.locate(at).station);
        const Eigen::Vector2d normal = reading(at).normal;
        return heading.dot(normal[0] * frame.outward + normal[1] * Eigen::Vector3d::UnitZ());
    };
    const double distance = reading(point).distance;
    const double angle = into_tool(point, direction);
    const Placement before = surface.placement();
    move();
    const Carried after = carry(line, before, surface.placement(), {point, direction});
    EXPECT_GT((after.point - point).norm(), 0.5);
    EXPECT_NEAR(reading(after.point).distance, distance, 1e-12);
    EXPECT_NEAR(line.locate(after.point).station, 5, 1e-12);
    EXPECT_NEAR(after.direction.norm(), direction.norm(), 1e-12);
    EXPECT_NEAR(into_tool(after.point, after.direction), angle, 1e-12);
}

TEST(Carry, GoesAlongWithALeafAndAWiper) {
    for (const BendLine& line :
         {BendLine::straight(40),
          BendLine::arc(60, 0.5, Curve::concave),
          BendLine::arc(60, 0.5, Curve::convex)}) {
        Leaf leaf(3, 4.2);
        leaf.set_angle(0.3);
        expect_to_go_along(
            leaf, [&leaf] { leaf.set_angle(0.7); }, line
        );
        Wiper wiper(4.4, 2);
        wiper.set_underside(1);
        expect_to_go_along(
            wiper, [&wiper] { wiper.set_underside(-2); }, line
        );
    }
}

} // namespace
} // namespace flangewright::tooling
