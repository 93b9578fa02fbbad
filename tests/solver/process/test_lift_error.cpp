// Sections of a web turned by what a finer mesh would turn them: what that does to its lift.
#include "solver/process/lift_error.hpp"
#include "tests/support/small_flange.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace flangewright::process {
namespace {

using job::EndKind;
using outline::BendLine;
using outline::Curve;

constexpr double turn = 0.01;
constexpr double web_width = 10; // of the small flange
constexpr double third_more = 4.0 / 3.0;

const WebSection level{{-web_width, 0}, {0, 0}};
const WebSection turned{{-web_width, -4, 0}, {turn * web_width, turn * 4, 0}};

Workpiece part_of(const BendLine& line, EndKind start, EndKind end) {
    return support::small_workpiece(support::small_flange(line, start, end), 6);
}

TEST(WebSection, HasTheHeightsOverTheBendTangent) {
    Workpiece piece = part_of(BendLine::straight(6), EndKind::free, EndKind::free);
    for (int node = 0; node < piece.mesh.n_nodes(); ++node) {
        piece.state.positions(2, node) = 7 - 0.02 * piece.mesh.distance[node];
    }
    const WebSection section = web_section(piece);
    EXPECT_DOUBLE_EQ(section.distance.front(), -web_width);
    EXPECT_EQ(section.distance.back(), 0);
    EXPECT_NEAR(section.height.front(), 0.02 * web_width, 1e-12);
    EXPECT_EQ(section.height.back(), 0);
    EXPECT_EQ(section.height.size(), section.distance.size());
}

// A ring can't tilt: its web becomes a cone of that slope.
TEST(LiftError, OfARingIsTheTurnOverItsWeb) {
    const BendLine line = BendLine::arc(40, 0.3, Curve::concave);
    const Workpiece ring = part_of(line, EndKind::continues, EndKind::continues);
    EXPECT_NEAR(lift_error(ring, level, turned), third_more * turn * web_width, 1e-9);
    EXPECT_NEAR(lift_error(ring, turned, level), third_more * turn * web_width, 1e-9);
    EXPECT_EQ(lift_error(ring, turned, turned), 0);
    EXPECT_EQ(lift_error(ring, {}, turned), 0);
}

// What all sections of a straight part turn by is a tilt, which the block takes out.
TEST(LiftError, OfAStraightPartIsNothingForATurn) {
    const Workpiece angle = part_of(BendLine::straight(30), EndKind::free, EndKind::free);
    EXPECT_NEAR(lift_error(angle, level, turned), 0, 1e-9);
    const WebSection dished{{-web_width, -5, 0}, {0, 0.3, 0}};
    EXPECT_GT(lift_error(angle, level, dished), 0.1) << "a hollow is not taken out";
}

// A free piece of a cone lies on one of its generators, near the middle (it rocks on an element
// there): of a cone that rises by `turn`, a corner at the radius r then stands turn r (1 - cos b)
// over the block, b being the angle from that generator. Derived here.
TEST(LiftError, OfAFreeArcIsTheHeightOfItsCorners) {
    constexpr double radius = 60;
    constexpr double sweep = 0.8;
    constexpr double half_element = 0.5 * sweep / 6;
    const Workpiece arc =
        part_of(BendLine::arc(radius, sweep, Curve::concave), EndKind::free, EndKind::free);
    const auto height = [](double angle) {
        return third_more * turn * (radius + web_width) * (1 - std::cos(angle));
    };
    const double error = lift_error(arc, level, turned);
    EXPECT_GT(error, height(0.5 * sweep));
    EXPECT_LT(error, height(0.5 * sweep + half_element));
}

} // namespace
} // namespace flangewright::process
