// Contact of one node with a swept tool: force and stiffness are the derivatives of one energy, for
// straight, concave and convex bend lines.
#include "solver/tooling/surface/following_tool.hpp"
#include "solver/tooling/surface/form_block.hpp"
#include "solver/tooling/surface/leaf.hpp"
#include "solver/tooling/surface/wiper.hpp"
#include "solver/tooling/surface/worked_tool.hpp"
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

// The front of the only pass in the middle of the line.
SweptContact worked_contact(
    const BendLine& line,
    std::shared_ptr<const DrivenSurface> shape,
    std::vector<double> strokes,
    FrontFrom from
) {
    auto tool = std::make_shared<WorkedTool>(
        std::move(shape), WorkedStretch{0, line.length(), 20, from}, std::move(strokes)
    );
    tool->move_to(0.5);
    return {line, tool, law, Face::outer, {}};
}

// A node whose touching face lies `gap` off the tool at a profile place given as distance, height,
// with the tool's normal there.
ContactNode
node_at(const SweptContact& contact, double station, const SectionPoint& place, double gap) {
    const outline::LineFrame frame = contact.line.frame(station);
    const SurfaceReading tool = contact.surface->at_station(place, station).surface;
    const SectionPoint normal = tool.normal;
    const SectionPoint touching = place + (gap - tool.distance) * normal;
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

// The front adds slopes along the line: the tool stands aslant, and turns, from station to station.
TEST_P(SweptAlong, StiffnessOfAWorkedToolIsTheDerivativeOfForce) {
    const BendLine& line = GetParam().line;
    for (const FrontFrom from : {FrontFrom::start, FrontFrom::end, FrontFrom::both_ends}) {
        const SweptContact wiper =
            worked_contact(line, std::make_shared<Wiper>(R + 1.4, 2), {-2, -10}, from);
        const SweptContact leaf =
            worked_contact(line, std::make_shared<Leaf>(R, R + 1.4), {0.2, 1.3}, from);
        const auto* stroke = dynamic_cast<const WorkedTool*>(wiper.surface.get());
        ASSERT_NE(stroke, nullptr);
        for (const double share : {0.35, 0.45, 0.62}) {
            const double station = share * line.length();
            const double underside = stroke->stroke_at(station).value;
            for (const double gap : {-0.007, -0.05}) {
                expect_derivatives(wiper, node_at(wiper, station, {4.3, underside + 3}, gap));
                expect_derivatives(wiper, node_at(wiper, station, {4.8, underside + 0.4}, gap));
                expect_derivatives(wiper, node_at(wiper, station, {8, underside - 0.2}, gap));
                expect_derivatives(leaf, node_at(leaf, station, {7, -3}, gap));
            }
        }
    }
}

// A wall whose angle varies, and the leaf that follows it: both stand aslant along the line.
TEST_P(SweptAlong, StiffnessOnAWallOfVaryingAngleIsTheDerivativeOfForce) {
    const BendLine& line = GetParam().line;
    const double length = line.length();
    const outline::Profile walls({{0, 1.3}, {0.5 * length, 1.7}, {length, 1.5}});
    const SweptContact block{
        line, std::make_shared<FormBlock>(R, 1.7, walls), law, Face::block, {}};
    const auto leaf = std::make_shared<FollowingTool>(std::make_shared<Leaf>(R, R + 1.4), walls);
    leaf->move_to(0.8);
    const SweptContact drive{line, leaf, law, Face::outer, {}};
    // On the slope, and on the rounded corner between both.
    for (const double station : {0.3 * length, 0.5 * length + 0.7, 0.8 * length}) {
        for (const double gap : {-0.007, -0.05}) {
            expect_derivatives(block, node_at(block, station, {-2, 0.3}, gap)); // face
            expect_derivatives(block, node_at(block, station, {2, -0.5}, gap)); // nose
            expect_derivatives(block, node_at(block, station, {3.2, -8}, gap)); // wall
            expect_derivatives(drive, node_at(drive, station, {7, -3}, gap));
        }
    }
    const ContactReading on_wall =
        read_contact(block, node_at(block, 0.3 * length, {3.2, -8}, -0.05));
    EXPECT_GT(std::abs(on_wall.normal.dot(line.frame(0.3 * length).tangent)), 0.05);
}

// Unit normal times push is the force, however steep the front.
TEST(SweptContact, PushOfAWorkedToolIsTheWholeForce) {
    const SweptContact wiper = worked_contact(
        BendLine::straight(40), std::make_shared<Wiper>(R + 1.4, 2), {-2, -10}, FrontFrom::start
    );
    const ContactReading reading = read_contact(wiper, node_at(wiper, 20, {8, -6.2}, -0.05));
    ASSERT_TRUE(reading.is_touching);
    EXPECT_NEAR(reading.normal.norm(), 1, 1e-12);
    EXPECT_LT((reading.gradient + reading.push * reading.normal).norm(), 1e-9);
    // Behind the front the underside is lower: the force leans ahead, out of the section.
    EXPECT_GT(std::abs(reading.normal.dot(wiper.line.frame(20).tangent)), 0.1);
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
