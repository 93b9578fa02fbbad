// A strip pressed by a round punch into a wide trough and let go: unconstrained cylindrical
// bending, set up for a conference on sheet forming in 2002. Source: numisheet-2002, sizes and flow
// curve from memory. No measured angle was found: the reference is a plane-strain solid of the same
// section, data/round_strip.csv.
#include "solver/tooling/surface/trough.hpp"
#include "solver/tooling/surface/wiper.hpp"
#include "tests/support/formed_strip.hpp"
#include "tests/support/reference_table.hpp"
#include "tests/support/verification_record.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

namespace flangewright {
namespace {

using support::FormedStrip;
using tooling::mirrored_axes;

constexpr double t = 1;
constexpr double half_length = 60;
constexpr double punch_radius = 23.5;
constexpr double floor_radius = 25.5;
constexpr double shoulder = 4;
constexpr double stroke = 22; // of 28.5 in full: the solid finds no way on near the floor

constexpr double opening_held_band =
    0.6; // deg, both legs; as the flange angle of the solid sections
constexpr double springback_band = 0.05; // uncertainty of the solid's springback

std::string number(double value) {
    return fmt::format("{:g}", value);
}

struct Opening {
    double held = 0; // deg
    double released = 0;
};

shell::Section section() {
    const auto flow = support::flow_law(
        "voce", {{"yield_stress", {192.1}}, {"saturation_stress", {429.8}}, {"rate", {8.504}}}
    );
    return {{70500, 0.342}, flow, t, shell::gauss_layers(12)};
}

double opening(const FormedStrip& strip) {
    return 180 - 2 * support::slope_deg(strip.middle(50), strip.middle(58));
}

Opening bend(double friction, double spacing) {
    FormedStrip strip(
        section(), {.length = half_length, .fine_begin = 0, .fine_end = 50, .spacing = spacing}
    );
    // Half of a round punch is a wiper whose corner is as wide as the punch.
    const auto punch = std::make_shared<tooling::MovedSurface>(
        std::make_shared<tooling::Wiper>(-punch_radius, punch_radius),
        mirrored_axes(),
        Eigen::Vector2d(0, t)
    );
    const auto die = std::make_shared<tooling::Trough>(floor_radius, shoulder);
    const auto down = strip.form(
        {{die, tooling::Face::block}, {punch, tooling::Face::outer}},
        friction,
        [&](double share) {
            punch->move_to({0, t - stroke * share});
        }
    );
    EXPECT_EQ(down.end, equilibrium::PathEnd::done);
    EXPECT_LT(strip.penetration(), 0.01 * t);
    Opening found{.held = opening(strip)};
    const auto back = strip.release();
    EXPECT_EQ(back.end, equilibrium::PathEnd::done);
    found.released = opening(strip);
    return found;
}

const support::ReferenceTable& solid() {
    static const support::ReferenceTable table("round_strip");
    return table;
}

// Both meshes are run, the finer one is judged.
void expect_opening_of_the_solid(double friction, const std::string& row) {
    for (const double spacing : {1.0, 0.5}) {
        const Opening found = bend(friction, spacing);
        const Opening wanted{solid().of(row, "held"), solid().of(row, "released")};
        const support::Figure figure{
            .table = "formed_strip",
            .check = "round punch into a trough, friction " + number(friction),
            .source = "solid-strip-reference, computed, no measurement behind it",
            .mesh = number(spacing) + " mm along the strip, 12 layers"};
        support::compare_finest(
            spacing == 0.5,
            figure.of("opening angle held, deg", found.held, wanted.held),
            {.width = opening_held_band, .is_absolute = true}
        );
        support::compare_finest(
            spacing == 0.5,
            figure.of(
                "springback of the opening angle, deg",
                found.released - found.held,
                wanted.released - wanted.held
            ),
            {.width = springback_band}
        );
    }
}

TEST(CylindricalBending, OpensAsTheSolidWithoutFriction) {
    expect_opening_of_the_solid(0, "smooth");
}

TEST(CylindricalBending, OpensAsTheSolidWithFriction) {
    expect_opening_of_the_solid(0.135, "rubbed");
}

} // namespace
} // namespace flangewright
