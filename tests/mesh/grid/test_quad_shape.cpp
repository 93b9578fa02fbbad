#include "mesh/grid/quad_shape.hpp"

#include <gtest/gtest.h>

namespace flangewright::grid {
namespace {

Eigen::Matrix3Xd corners(double x, double y) {
    Eigen::Matrix3Xd positions(3, 4);
    positions.row(0) << 0, 1, x, 0;
    positions.row(1) << 0, 0, y, 1;
    positions.row(2).setZero();
    return positions;
}

TEST(QuadShape, SquareIsOneAndFoldedIsNot) {
    const std::array<int, 4> quad{0, 1, 2, 3};
    EXPECT_DOUBLE_EQ(shape_of_quad(corners(1, 1), quad), 1);
    EXPECT_GT(shape_of_quad(corners(2, 2), quad), 0);
    EXPECT_LT(shape_of_quad(corners(0.3, 0.3), quad), 0) << "a corner turns in";
}

TEST(QuadShape, TurnedOnesAreCounterClockwise) {
    std::vector<std::array<int, 4>> quads{{0, 3, 2, 1}};
    EXPECT_FALSE(all_convex(corners(1, 1), quads));
    turn_counter_clockwise(corners(1, 1), quads);
    EXPECT_TRUE(all_convex(corners(1, 1), quads));
}

/// Four squares whose common corner has slipped.
TEST(QuadShape, SmoothingPutsASlippedNodeBackAndLeavesHeldOnes) {
    Eigen::Matrix3Xd positions(3, 9);
    for (int i = 0; i < 9; ++i) {
        positions.col(i) << i % 3, i / 3, 0;
    }
    positions.col(4) << 1.8, 1.7, 0;
    const std::vector<std::array<int, 4>> quads{
        {0, 1, 4, 3}, {1, 2, 5, 4}, {3, 4, 7, 6}, {4, 5, 8, 7}};
    const Eigen::Matrix3Xd before = positions;
    smooth_quads(positions, quads, std::vector<bool>(9, false));
    EXPECT_EQ(positions, before);
    std::vector<bool> is_free(9, false);
    is_free[4] = true;
    smooth_quads(positions, quads, is_free);
    EXPECT_NEAR(positions(0, 4), 1, 1e-12);
    EXPECT_NEAR(positions(1, 4), 1, 1e-12);
}

} // namespace
} // namespace flangewright::grid
