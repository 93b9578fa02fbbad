#include "mesh/outline/polygons.hpp"

#include <gtest/gtest.h>

namespace flangewright::outline {
namespace {

Polygon square(double x, double y, double half) {
    return {
        {x - half, y - half, 0},
        {x + half, y - half, 0},
        {x + half, y + half, 0},
        {x - half, y + half, 0}};
}

TEST(Polygons, InsideIsInsideEitherWayRound) {
    Polygon polygon = square(0, 0, 2);
    EXPECT_TRUE(contains(polygon, {1, 1.5, 0}));
    EXPECT_FALSE(contains(polygon, {3, 0, 0}));
    std::swap(polygon[1], polygon[3]);
    EXPECT_TRUE(contains(polygon, {1, 1.5, 0}));
    EXPECT_FALSE(contains(polygon, {0, -3, 0}));
}

TEST(Polygons, CrossWhenTheirSidesMeet) {
    EXPECT_TRUE(do_cross(square(0, 0, 2), square(2, 1, 1)));
    EXPECT_TRUE(do_cross(square(0, 0, 2), square(3, 0, 1))) << "they touch";
    EXPECT_FALSE(do_cross(square(0, 0, 2), square(0, 0, 1)));
    EXPECT_FALSE(do_cross(square(0, 0, 2), square(9, 0, 1)));
}

TEST(Polygons, OffASideIsTheWayToItsNearestPoint) {
    EXPECT_DOUBLE_EQ(off_side({1, 3, 0}, {0, 0, 0}, {2, 0, 0}), 3);
    EXPECT_DOUBLE_EQ(off_side({5, 4, 0}, {0, 0, 0}, {2, 0, 0}), 5);
    EXPECT_DOUBLE_EQ(off_side({3, 4, 0}, {0, 0, 0}, {0, 0, 0}), 5);
}

TEST(Polygons, NestedOnesLieInTheFirstSideBySide) {
    const Polygon outer = square(0, 0, 10);
    EXPECT_TRUE(are_nested({outer}));
    EXPECT_TRUE(are_nested({outer, square(-5, 0, 2), square(5, 0, 2)}));
    EXPECT_FALSE(are_nested({outer, square(-5, 0, 2), square(-4, 0, 2)})) << "they cross";
    EXPECT_FALSE(are_nested({outer, square(-5, 0, 2), square(-5, 0, 1)})) << "one in the other";
    EXPECT_FALSE(are_nested({outer, square(-5, 0, 1), square(-5, 0, 2)}));
    EXPECT_FALSE(are_nested({outer, square(20, 0, 2)})) << "outside";
    EXPECT_FALSE(are_nested({outer, square(9, 0, 2)})) << "over the border";
}

} // namespace
} // namespace flangewright::outline
