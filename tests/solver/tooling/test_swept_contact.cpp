// Contact of one node with a swept tool: force and stiffness are the derivatives of one energy, for
// straight, concave and convex bend lines.
#include "solver/tooling/surface/form_block.hpp"
#include "solver/tooling/surface/wiper.hpp"
#include "solver/tooling/swept_contact.hpp"

#include <Eigen/Geometry>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright::tooling {
namespace {

using outline::BendLine;
using outline::Curve;

constexpr double R = 3;
const ContactLaw law{.stiffness = 5000, .ramp = 0.02};

SweptContact block_contact(const BendLine& line) {
    return {line, std::make_shared<FormBlock>(R, 0.5 * std::numbers::pi), law, Face::block, {}};
}

SweptContact wiper_contact(const BendLine& line) {
    auto wiper = std::make_shared<Wiper>(R + 1.4, 2);
    wiper->set_underside(-6);
    return {line, wiper, law, Face::outer, {}};
}

// A node whose touching face lies `gap` off the tool at a profile place given as distance, height,
// with the tool's normal there.
ContactNode
node_at(const SweptContact& contact, double station, const SectionPoint& place, double gap) {
    const outline::LineFrame frame = contact.line.frame(station);
    const SectionPoint normal = contact.surface->at(place).normal;
    const SectionPoint touching = place + (gap - contact.surface->at(place).distance) * normal;
    const Eigen::Vector3d point =
        contact.line.point({station, touching[0]}) + touching[1] * Eigen::Vector3d::UnitZ();
    // A director that leans, as it does on the way.
    const Eigen::Vector3d director =
        (normal[0] * frame.outward + normal[1] * Eigen::Vector3d::UnitZ() + 0.2 * frame.tangent)
            .normalized();
    const double half = 0.45;
    const double offset = contact.face == Face::block ? -half : half;
    return {point - offset * director, director, half, 0.3};
}

struct Named {
    const char* name;
    BendLine line;
};

class SweptAlong : public testing::TestWithParam<Named> {
protected:
    static void expect_derivatives(const SweptContact& contact, const ContactNode& node) {
        const ContactReading here = read_contact(contact, node);
        ASSERT_TRUE(here.is_touching);
        ASSERT_GT(here.gradient.norm(), 0.01);
        constexpr double h = 1e-6;
        Eigen::Matrix3d slope;
        Eigen::Vector3d gap_slope;
        for (int i = 0; i < 3; ++i) {
            ContactNode up = node;
            ContactNode down = node;
            up.position[i] += h;
            down.position[i] -= h;
            const ContactReading above = read_contact(contact, up);
            const ContactReading below = read_contact(contact, down);
            slope.col(i) = (above.gradient - below.gradient) / (2 * h);
            gap_slope[i] = (above.gap - below.gap) / (2 * h);
        }
        EXPECT_LT((slope - here.stiffness).norm(), 1e-6 * here.stiffness.norm());
        // The force pushes the sheet off the tool, square to it: area times pressure.
        const double push = node.area * contact.law.at(here.gap).pressure;
        EXPECT_LT((here.gradient + push * gap_slope).norm(), 1e-6 * push);
    }
};

TEST_P(SweptAlong, StiffnessIsTheDerivativeOfForce) {
    const SweptContact block = block_contact(GetParam().line);
    const double station = 0.3 * GetParam().line.length();
    for (const double gap : {-0.007, -0.05}) { // on the ramp and past it
        expect_derivatives(block, node_at(block, station, {-2, 0.3}, gap)); // face
        expect_derivatives(block, node_at(block, station, {2, -0.5}, gap)); // nose
        expect_derivatives(block, node_at(block, station, {3.2, -6}, gap)); // wall
        const SweptContact wiper = wiper_contact(GetParam().line);
        expect_derivatives(wiper, node_at(wiper, station, {4.3, -3}, gap)); // upright face
        expect_derivatives(wiper, node_at(wiper, station, {4.8, -5.6}, gap)); // corner
        expect_derivatives(wiper, node_at(wiper, station, {8, -6.2}, gap)); // underside
    }
}

TEST_P(SweptAlong, DoesNotTouchFromOutside) {
    const SweptContact block = block_contact(GetParam().line);
    const ContactReading reading = read_contact(block, node_at(block, 5, {2, -0.5}, 0.01));
    EXPECT_FALSE(reading.is_touching);
    EXPECT_NEAR(reading.gap, 0.01, 1e-12);
    EXPECT_TRUE(reading.gradient.isZero());
    EXPECT_TRUE(reading.stiffness.isZero());
}

INSTANTIATE_TEST_SUITE_P(
    Lines,
    SweptAlong,
    testing::Values(
        Named{"straight", BendLine::straight(40)},
        Named{"concave", BendLine::arc(25, 1.2, Curve::concave)},
        Named{"convex", BendLine::arc(25, 1.2, Curve::convex)},
        Named{"inTheConcavePartOfAChain", BendLine::chain({{20, 1.0 / 25}, {10, -1.0 / 30}})},
        Named{"inTheConvexPartOfAChain", BendLine::chain({{5, 1.0 / 25}, {30, -1.0 / 30}})}
    ),
    [](const auto& trial) { return std::string(trial.param.name); }
);

// Sweeping a wall along a concave line makes a hollow, along a convex one a bulge: the stiffness
// along the line carries pressure over the radius with opposite signs.
TEST(SweptContact, AHollowWallTurnsTheForceTheOtherWayThanABulge) {
    const auto along = [](Curve curve) {
        const SweptContact contact = block_contact(BendLine::arc(25, 1.2, curve));
        const ContactNode node = node_at(contact, 10, {3.2, -6}, -0.05);
        const Eigen::Vector3d tangent = contact.line.frame(10).tangent;
        const double push = node.area * contact.law.at(-0.05).pressure;
        return tangent.dot(read_contact(contact, node).stiffness * tangent) / push;
    };
    // Radius of the touching point: 25 -+ 2.95 (wall at 3 less the overlap).
    EXPECT_NEAR(along(Curve::concave), 1 / (25 - 2.95), 1e-3);
    EXPECT_NEAR(along(Curve::convex), -1 / (25 + 2.95), 1e-3);
}

TEST(SweptContact, BlockTouchesTheBlockFaceAndDriveTheOuterFace) {
    const SweptContact block = block_contact(BendLine::straight(10));
    const ContactNode resting{{0, -3, 0.45}, Eigen::Vector3d::UnitZ(), 0.45, 1};
    EXPECT_NEAR(read_contact(block, resting).gap, 0, 1e-12);
    EXPECT_NEAR(read_contact(block, resting).offset, -0.45, 1e-12);
    SweptContact wiper = wiper_contact(BendLine::straight(10));
    const ContactNode below{{0, 9, -7}, Eigen::Vector3d::UnitZ(), 0.45, 1};
    EXPECT_NEAR(read_contact(wiper, below).gap, 0.55, 1e-12);
}

} // namespace
} // namespace flangewright::tooling
