// A strip drawn over the shoulders of a die into a hat and let go: 2-D draw bending, set up for a
// conference on sheet forming in 1993. Source: numisheet-1993, sizes and flow curve from memory. No
// measured angle was found: the reference is a plane-strain solid of the same section,
// data/drawn_strip.csv.
#include "solver/tooling/surface/form_block.hpp"
#include "solver/tooling/surface/leaf.hpp"
#include "solver/tooling/surface/moved_surface.hpp"
#include "solver/tooling/surface/wiper.hpp"
#include "tests/support/formed_strip.hpp"
#include "tests/support/reference_table.hpp"
#include "tests/support/verification_record.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright {
namespace {

using support::FormedStrip;
using tooling::mirrored_axes;
using tooling::MovedSurface;

constexpr double t = 0.81;
constexpr double half_length = 90;
constexpr double punch_half_width = 25;
constexpr double die_half_width = 26;
constexpr double edge_radius = 5; // of punch and die
constexpr double holder_height = 1.0; // fixed: 0.19 mm of play over the sheet
constexpr double stroke = 30; // of 70 in full: the solid takes too long otherwise

constexpr double angle_band = 0.5; // deg
constexpr double curl_band = 0.1; // of the radius

std::string number(double value) {
    return fmt::format("{:g}", value);
}

struct Hat {
    double wall_angle = 0; // deg, web to the wall's lower half
    double flange_angle = 0; // deg, the wall's upper half to the flange
    double wall_curvature = 0; // 1/mm
};

Hat hat_of(const FormedStrip& strip) {
    const double top = stroke + 15; // flat distance, below the die's shoulder
    const auto a = strip.middle(31);
    const auto b = strip.middle(0.5 * (31 + top));
    const auto c = strip.middle(top);
    const double web = support::slope_deg(strip.middle(0), strip.middle(15));
    const double flange = support::slope_deg(strip.middle(top + 17), strip.middle(top + 37));
    return {
        180 - support::slope_deg(a, b) + web,
        180 - support::slope_deg(b, c) + flange,
        support::curvature_through(a, b, c)};
}

struct Drawn {
    Hat held = {};
    Hat released = {};
};

Drawn draw(double friction, double spacing) {
    FormedStrip strip(
        {{71000, 0.33}, support::swift(579.8, 0.0166, 0.359), t, shell::gauss_layers(12)},
        {.length = half_length, .fine_begin = 17, .fine_end = 33 + stroke, .spacing = spacing}
    );
    const auto punch = std::make_shared<MovedSurface>(
        std::make_shared<tooling::Wiper>(-punch_half_width, edge_radius),
        mirrored_axes(),
        Eigen::Vector2d(0, t)
    );
    const auto die = std::make_shared<MovedSurface>(
        std::make_shared<tooling::FormBlock>(edge_radius, 0.5 * std::numbers::pi),
        mirrored_axes(),
        Eigen::Vector2d(die_half_width + edge_radius, 0)
    );
    const auto holder = std::make_shared<tooling::Leaf>(0, holder_height);
    const auto down = strip.form(
        {{die, tooling::Face::block},
         {holder, tooling::Face::outer},
         {punch, tooling::Face::outer}},
        friction,
        [&](double share) {
            punch->move_to({0, t - stroke * share});
        }
    );
    EXPECT_EQ(down.end, equilibrium::PathEnd::done);
    EXPECT_LT(strip.penetration(), 0.01 * t);
    Drawn found{.held = hat_of(strip)};
    const auto back = strip.release();
    EXPECT_EQ(back.end, equilibrium::PathEnd::done);
    found.released = hat_of(strip);
    return found;
}

const support::ReferenceTable& solid() {
    static const support::ReferenceTable table("drawn_strip");
    return table;
}

Hat solid_hat(const std::string& row) {
    return {
        solid().of(row, "wall_angle"),
        solid().of(row, "flange_angle"),
        solid().of(row, "wall_curvature")};
}

// What the shell is known to miss of the solid, bounded from both sides so that a change either way
// is seen. Its mesh is not the reason: half the spacing, run by hand, moves the angle by 0.04 deg
// and the radius by 0.3 %. Nor is the solid's: quads 0.3 mm long instead of 0.5, or 6 through the
// thickness instead of 4, move them by at most 0.05 deg and 0.4 %. Likely reason, not tested: the
// missing stress through the thickness, as in the sections folded by a wiper.
struct KnownMiss {
    double wall_angle; // released, deg
    double curl_radius; // released, share
};
constexpr double wall_play = 0.2; // deg, within which it may move with compiler and library
constexpr double curl_play = 0.05;

support::Figure hat_figure(double friction, double spacing) {
    return {
        .table = "formed_strip",
        .check = "strip drawn " + number(stroke) + " mm into a hat, friction " + number(friction),
        .source = "solid-strip-reference, computed, no measurement behind it",
        .mesh = number(spacing) + " mm along the strip, 12 layers"};
}

void compare_hats(
    bool is_finest,
    const support::Figure& figure,
    const Drawn& found,
    const Drawn& wanted,
    const KnownMiss& known
) {
    const support::Band angle{.width = angle_band, .is_absolute = true};
    const auto put = [&](const char* name, double ours, double reference, const support::Band& band
                     ) {
        support::compare_finest(is_finest, figure.of(name, ours, reference), band);
    };
    put("wall angle held, deg", found.held.wall_angle, wanted.held.wall_angle, angle);
    put("flange angle released, deg",
        found.released.flange_angle,
        wanted.released.flange_angle,
        angle);
    put("wall angle released, deg",
        found.released.wall_angle,
        wanted.released.wall_angle,
        {.width = wall_play, .about = known.wall_angle, .asked = "within 0.5", .is_absolute = true}
    );
    put("curl radius of the wall released, mm",
        1 / std::abs(found.released.wall_curvature),
        1 / std::abs(wanted.released.wall_curvature),
        {.width = curl_play, .about = known.curl_radius, .asked = "within 10 %"});
    // The wall curls outward in both.
    EXPECT_LT(found.released.wall_curvature, 0);
    EXPECT_LT(wanted.released.wall_curvature, 0);
}

// Both meshes are run, the finer one is judged.
void expect_hat_of_the_solid(double friction, const std::string& row, const KnownMiss& known) {
    const Drawn wanted{solid_hat(row + "_held"), solid_hat(row + "_released")};
    for (const double spacing : {0.5, 0.25}) {
        const Drawn found = draw(friction, spacing);
        compare_hats(spacing == 0.25, hat_figure(friction, spacing), found, wanted, known);
    }
}

TEST(DrawBending, HasTheSolidsHeldAndFlangeAnglesAndAKnownMissOfTheWall) {
    expect_hat_of_the_solid(0, "smooth", {.wall_angle = 0.91, .curl_radius = -0.184});
}

TEST(DrawBending, HasThemWithFrictionToo) {
    expect_hat_of_the_solid(0.162, "rubbed", {.wall_angle = 1.5, .curl_radius = -0.124});
}

} // namespace
} // namespace flangewright
