// Linear shells, each loaded so little that only the tangent at rest counts.
// Sources: macneal-harder-1985 (roof, hemisphere, twisted strip: values read second-hand),
// lindberg-olson-cowper-1969 (pinched cylinder, read second-hand), zupan-saje-2004 (twisted strip
// with these digits, read second-hand). The roof's 0.3024 is the value published; fine shells with
// shear settle between 0.3006 and 0.3020. The hemisphere's 0.0924 is the value published; 0.0930 to
// 0.0940 is quoted from memory for the shell with the hole. curved-hook: a fine solid, second-hand.
#include "tests/support/curved_sheet.hpp"
#include "tests/support/verification_record.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

namespace flangewright {
namespace {

using Eigen::Vector3d;
using support::ShellTrial;

constexpr double pi = std::numbers::pi;

std::string square_mesh(int n) {
    return support::mesh_name(n, n);
}
std::string strip_mesh(int n) {
    return support::mesh_name(n, n / 6);
}

// Meshes of one check, coarse to fine; the last one is judged by 2 %.
void judge(
    support::Figure figure,
    const std::vector<int>& meshes,
    double (*answer)(int n),
    std::string (*name)(int n) = square_mesh
) {
    for (const int n : meshes) {
        figure.mesh = name(n);
        figure.measured = answer(n);
        support::compare_finest(n == meshes.back(), figure, {.width = 0.02});
    }
}

// A quarter: i from the crown to the free edge, j from mid-length to the end wall.
double roof_sag(int n) {
    const double half_angle = 40 * pi / 180;
    ShellTrial roof(
        support::elastic_section(4.32e8, 0, 0.25), support::cylinder_part(25, half_angle, 25, n, n)
    );
    roof.mirror(roof.patch.line(0), Vector3d::UnitX());
    roof.mirror(support::line_across(roof.patch, 0), Vector3d::UnitY());
    roof.hold(support::line_across(roof.patch, n), Vector3d::UnitX());
    roof.hold(support::line_across(roof.patch, n), Vector3d::UnitZ());
    equilibrium::DeadLoads weight = equilibrium::DeadLoads::none(roof.model.n_nodes());
    weight.on_positions.row(2) = -90 * roof.model.node_area.transpose();
    return -roof.linear_answer(weight)(2, roof.patch.node(n, 0));
}

TEST(LinearShells, RoofSagsUnderItsWeight) {
    judge(
        {.table = "linear",
         .check = "Scordelis-Lo roof, own weight",
         .source = "macneal-harder-1985, second-hand",
         .figure = "sag of the free edge",
         .reference = 0.3024},
        {8, 16, 32},
        roof_sag
    );
}

// An eighth: i from the force to 90 deg round, j from mid-length to the end wall.
double pinched_cylinder_dent(int n) {
    ShellTrial shell(
        support::elastic_section(3e6, 0.3, 3), support::cylinder_part(300, 0.5 * pi, 300, n, n)
    );
    shell.mirror(shell.patch.line(0), Vector3d::UnitX());
    shell.mirror(shell.patch.line(n), Vector3d::UnitZ());
    shell.mirror(support::line_across(shell.patch, 0), Vector3d::UnitY());
    shell.hold(support::line_across(shell.patch, n), Vector3d::UnitX());
    shell.hold(support::line_across(shell.patch, n), Vector3d::UnitZ());
    const int at = shell.patch.node(0, 0);
    return -shell.linear_answer(shell.force_on(at, {0, 0, -0.25}))(2, at);
}

TEST(LinearShells, PinchedCylinderDentsUnderTheForce) {
    judge(
        {.table = "linear",
         .check = "pinched cylinder with end walls",
         .source = "lindberg-olson-cowper-1969, second-hand",
         .figure = "dent under the force",
         .reference = 1.82488e-5},
        {8, 16, 32},
        pinched_cylinder_dent
    );
}

// A quarter: i round from the force outward (on +x) to the force inward (on +y), j from the rim to
// the hole.
double hemisphere_pull(int n) {
    ShellTrial shell(
        support::elastic_section(6.825e7, 0.3, 0.04),
        support::curve_patch(
            n,
            n,
            [](double round, double up) {
                const double azimuth = 0.5 * pi * round;
                const double height = 72 * pi / 180 * up;
                return Vector3d(
                    10 * std::cos(height) * std::cos(azimuth),
                    10 * std::cos(height) * std::sin(azimuth),
                    10 * std::sin(height)
                );
            }
        )
    );
    shell.mirror(shell.patch.line(0), Vector3d::UnitY());
    shell.mirror(shell.patch.line(n), Vector3d::UnitX());
    const int pulled = shell.patch.node(0, 0);
    shell.hold(std::array{pulled}, Vector3d::UnitZ());
    equilibrium::DeadLoads forces = shell.force_on(pulled, {1, 0, 0});
    forces.on_positions.col(shell.patch.node(n, 0)) = Vector3d(0, -1, 0);
    return shell.linear_answer(forces)(0, pulled);
}

TEST(LinearShells, PinchedHemisphereOpensUnderTheForce) {
    judge(
        {.table = "linear",
         .check = "pinched hemisphere with a hole of 18 deg",
         .source = "macneal-harder-1985, second-hand",
         .figure = "move under the force",
         .reference = 0.0924},
        {8, 16, 32},
        hemisphere_pull
    );
}

// A strip 12 long and 1.1 wide, twisted by 90 deg, clamped at one end.
enum class TipForce { in_plane, out_of_plane };

double strip_tip(int n_long, double thickness, double force, TipForce way) {
    constexpr double length = 12;
    constexpr double width = 1.1;
    const int n_wide = n_long / 6;
    ShellTrial strip(
        support::elastic_section(29e6, 0.22, thickness),
        support::curve_patch(
            n_long,
            n_wide,
            [](double along, double across) {
                const double turn = 0.5 * pi * along;
                const double out = width * (across - 0.5);
                return Vector3d(length * along, out * std::cos(turn), out * std::sin(turn));
            }
        )
    );
    strip.clamp(strip.patch.line(0));
    // The tip's width lies along z, its normal along y.
    const Vector3d direction =
        way == TipForce::in_plane ? Vector3d(Vector3d::UnitZ()) : Vector3d(Vector3d::UnitY());
    equilibrium::DeadLoads loads = equilibrium::DeadLoads::none(strip.model.n_nodes());
    for (int j = 0; j <= n_wide; ++j) {
        const double share = (j == 0 || j == n_wide ? 0.5 : 1.0) / n_wide;
        loads.on_positions.col(strip.patch.node(n_long, j)) = share * force * direction;
    }
    return strip.linear_answer(loads).col(strip.patch.node(n_long, n_wide / 2)).dot(direction);
}

double thick_in_plane(int n) {
    return strip_tip(n, 0.32, 1, TipForce::in_plane);
}
double thick_out_of_plane(int n) {
    return strip_tip(n, 0.32, 1, TipForce::out_of_plane);
}
double thin_in_plane(int n) {
    return strip_tip(n, 0.0032, 1e-6, TipForce::in_plane);
}
double thin_out_of_plane(int n) {
    return strip_tip(n, 0.0032, 1e-6, TipForce::out_of_plane);
}

constexpr const char* strip_source = "zupan-saje-2004, second-hand";

TEST(LinearShells, ThickTwistedStripBendsAtItsTip) {
    support::Figure figure{
        .table = "linear",
        .check = "strip twisted by 90 deg, h/L = 0.027",
        .source = strip_source,
        .figure = "tip, force in its plane",
        .reference = 5.424534868e-3};
    judge(figure, {12, 24, 48}, thick_in_plane, strip_mesh);
    figure.figure = "tip, force square to it";
    figure.reference = 1.753248285e-3;
    judge(figure, {12, 24, 48}, thick_out_of_plane, strip_mesh);
}

TEST(LinearShells, ThinTwistedStripBendsAtItsTip) {
    support::Figure figure{
        .table = "linear",
        .check = "strip twisted by 90 deg, h/L = 0.00027",
        .source = strip_source,
        .figure = "tip, force in its plane",
        .reference = 5.256e-3};
    judge(figure, {12, 24, 48}, thin_in_plane, strip_mesh);
    figure.figure = "tip, force square to it";
    figure.reference = 1.294e-3;
    judge(figure, {12, 24, 48}, thin_out_of_plane, strip_mesh);
}

// Two arcs of 60 deg at r = 14 and 150 deg the other way at r = 46, width 20, clamped at the first,
// sheared across at the tip. n elements across the width.
double hook_tip(int n) {
    const int n_long = 34 * n / 5;
    constexpr double first_share = 4.0 / 34; // of the elements
    const Vector3d first_centre(0, 0, 14);
    ShellTrial hook(
        support::elastic_section(3300, 0.35, 2),
        support::curve_patch(
            n_long,
            n,
            [&](double along, double across) {
                const double turned = pi / 3;
                const Vector3d width = 20 * across * Vector3d::UnitY();
                if (along <= first_share) {
                    const double at = turned * along / first_share;
                    const Vector3d in(std::sin(at), 0, -std::cos(at));
                    return Vector3d(first_centre + 14 * in + width);
                }
                const Vector3d out(std::sin(turned), 0, -std::cos(turned));
                const double at = turned - 5 * pi / 6 * (along - first_share) / (1 - first_share);
                const Vector3d in(-std::sin(at), 0, std::cos(at));
                return Vector3d(first_centre + (14 + 46) * out + 46 * in + width);
            }
        )
    );
    hook.clamp(hook.patch.line(0));
    equilibrium::DeadLoads loads = equilibrium::DeadLoads::none(hook.model.n_nodes());
    const std::vector<int> tip = hook.patch.line(n_long);
    for (std::size_t j = 0; j < tip.size(); ++j) {
        loads.on_positions(1, tip[j]) = (j == 0 || j + 1 == tip.size() ? 0.5 : 1.0) / n;
    }
    const Eigen::Matrix3Xd u = hook.linear_answer(loads);
    double mean = 0;
    for (const int node : tip) {
        mean += u(1, node) / static_cast<double>(tip.size());
    }
    return mean;
}

TEST(LinearShells, CurvedHookIsShearedAside) {
    judge(
        {.table = "linear",
         .check = "curved hook, sheared at its tip",
         .source = "curved-hook, second-hand",
         .figure = "mean move of the tip",
         .reference = 5.02201},
        {5, 10, 20},
        hook_tip,
        [](int n) { return support::mesh_name(34 * n / 5, n); }
    );
}

} // namespace
} // namespace flangewright
