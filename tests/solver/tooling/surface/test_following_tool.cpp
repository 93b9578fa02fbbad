// A tool that follows a wall whose angle varies: same share of the way everywhere, and a reading
// whose changes along the line are its derivatives.
#include "solver/tooling/surface/following_tool.hpp"
#include "solver/tooling/surface/leaf.hpp"
#include "tests/solver/tooling/surface/surface_claims.hpp"

#include <gtest/gtest.h>

namespace flangewright::tooling {
namespace {

const outline::Profile walls({{0, 1.2}, {20, 1.2}, {60, 1.6}});

FollowingTool leaf_at(double share) {
    FollowingTool tool(std::make_shared<Leaf>(3, 4.2), walls);
    tool.move_to(share);
    return tool;
}

TEST(FollowingTool, HasMadeTheSameShareOfItsWayEverywhere) {
    const FollowingTool tool = leaf_at(0.5);
    EXPECT_DOUBLE_EQ(tool.stroke_at(5).value, 0.6);
    EXPECT_DOUBLE_EQ(tool.stroke_at(40).value, 0.7);
    EXPECT_DOUBLE_EQ(leaf_at(1).stroke_at(70).value, 1.6);
    EXPECT_EQ(leaf_at(0).stroke_at(40).value, 0);
}

TEST(FollowingTool, StandsAtEachStationAsItsShapeWould) {
    const FollowingTool tool = leaf_at(0.5);
    Leaf leaf(3, 4.2);
    for (const double station : {5.0, 40.0}) {
        leaf.set_angle(tool.stroke_at(station).value);
        EXPECT_EQ(tool.at_station({8, -2}, station).surface.distance, leaf.at({8, -2}).distance);
        EXPECT_EQ(tool.placement_at(station).turn, leaf.placement().turn);
        EXPECT_EQ(tool.placement_at(station).shift, leaf.placement().shift);
    }
    EXPECT_EQ(tool.at({8, -2}).distance, tool.at_station({8, -2}, 0).surface.distance);
    EXPECT_EQ(tool.placement().turn, tool.placement_at(0).turn);
}

TEST(FollowingTool, ReadingChangesAlongTheLineAsItSays) {
    EXPECT_GT(expect_changes_along_line(leaf_at(0.7), {9, -3}, 1.27, 70, 0.9), 0.01);
}

} // namespace
} // namespace flangewright::tooling
