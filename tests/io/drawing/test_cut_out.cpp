#include "io/drawing/cut_out.hpp"

#include <gtest/gtest.h>

#include <numbers>

namespace flangewright::drawing {
namespace {

using Eigen::Vector2d;

constexpr double pi = std::numbers::pi;
constexpr double radius = 3;

/// Two sides of 5 mm up from the ends of a round bottom that turns by `turn`; each leans outward.
std::vector<Stroke> slot_with(double turn, double leaning) {
    const Stroke bottom = arc_stroke({0, 0}, radius, 1.5 * pi - 0.5 * turn, turn);
    const auto side = [leaning](const Vector2d& foot) -> Vector2d {
        const double out = foot.x() > 0 ? 1 : -1;
        return foot + 5 * Vector2d(out * std::sin(leaning), std::cos(leaning));
    };
    return {
        line_stroke(side(bottom.begin), bottom.begin),
        bottom,
        line_stroke(bottom.end, side(bottom.end))};
}

TEST(DrawnSlots, HaveTheirBottomAndTheWayOut) {
    const auto slots = slots_of(slot_with(pi, 0));
    ASSERT_TRUE(slots.has_value());
    ASSERT_EQ(slots->size(), 1U);
    EXPECT_NEAR(slots->front().centre.norm(), 0, 1e-12);
    EXPECT_NEAR(slots->front().width, 2 * radius, 1e-12);
    EXPECT_NEAR((slots->front().axis - Vector2d::UnitY()).norm(), 0, 1e-12);
}

TEST(DrawnSlots, HaveHalfRoundBottomsAndSquareSidesToHalfADegree) {
    constexpr double degree = pi / 180;
    EXPECT_TRUE(slots_of(slot_with(pi, 0.4 * degree)).has_value());
    EXPECT_FALSE(slots_of(slot_with(pi, 0.6 * degree)).has_value());
    EXPECT_TRUE(slots_of(slot_with(pi - 0.4 * degree, 0)).has_value());
    EXPECT_FALSE(slots_of(slot_with(pi - 0.6 * degree, 0)).has_value());
}

TEST(DrawnCircles, GoAllTheWayRound) {
    const auto whole = circles_of({arc_stroke({1, 2}, radius, 0, 2 * pi)});
    ASSERT_TRUE(whole.has_value());
    EXPECT_NEAR(whole->front().diameter, 2 * radius, 1e-12);
    EXPECT_NEAR((whole->front().centre - Vector2d(1, 2)).norm(), 0, 1e-12);
    EXPECT_FALSE(circles_of({arc_stroke({1, 2}, radius, 0, 1.9 * pi)}).has_value());
}

} // namespace
} // namespace flangewright::drawing
