#include "io/vtk/free_place.hpp"

#include <gtest/gtest.h>

namespace flangewright::vtk {
namespace {

using Eigen::Vector2d;

const LabelRoom room{{40, 15}, {0, 0}, {900, 600}};

/// A part that covers a rectangle.
std::vector<Vector2d> rectangle(const Vector2d& low, const Vector2d& high) {
    std::vector<Vector2d> points;
    for (double x = low.x(); x <= high.x(); x += 5) {
        for (double y = low.y(); y <= high.y(); y += 5) {
            points.emplace_back(x, y);
        }
    }
    return points;
}

bool covers(const Vector2d& middle, const std::vector<Vector2d>& points) {
    for (const Vector2d& at : points) {
        if (((at - middle).cwiseAbs().array() < room.half_size.array()).all()) {
            return true;
        }
    }
    return false;
}

TEST(FreePlace, IsBeneathTheDotWhenNothingIsThere) {
    const std::optional<Vector2d> place = free_place({450, 300}, room, {});
    ASSERT_TRUE(place);
    EXPECT_NEAR(place->x(), 450, 1e-9);
    EXPECT_LT(place->y(), 300);
}

TEST(FreePlace, NeverHidesThePart) {
    const std::vector<Vector2d> part = rectangle({100, 100}, {600, 500});
    for (const Vector2d& dot : {Vector2d(600, 480), Vector2d(110, 300), Vector2d(350, 100)}) {
        const std::optional<Vector2d> place = free_place(dot, room, part);
        ASSERT_TRUE(place);
        EXPECT_FALSE(covers(*place, part));
        EXPECT_LT((*place - dot).norm(), 90) << "far from its dot";
    }
}

TEST(FreePlace, StaysOnThePaper) {
    for (const Vector2d& dot : {Vector2d(2, 2), Vector2d(898, 300), Vector2d(450, 599)}) {
        const std::optional<Vector2d> place = free_place(dot, room, {});
        ASSERT_TRUE(place);
        EXPECT_GE(place->x(), room.half_size.x());
        EXPECT_LE(place->x(), 900 - room.half_size.x());
        EXPECT_GE(place->y(), room.half_size.y());
        EXPECT_LE(place->y(), 600 - room.half_size.y());
    }
}

TEST(FreePlace, IsNoneWhereThePartFillsThePaper) {
    EXPECT_FALSE(free_place({450, 300}, room, rectangle({0, 0}, {900, 600})));
}

} // namespace
} // namespace flangewright::vtk
