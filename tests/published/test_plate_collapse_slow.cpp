// Plates of perfectly plastic sheet under even pressure: the load at which deflection grows without
// bound, against limit analysis of thin plates (von Mises).
// Sources: plate-limit-analysis (own upper bounds; the literature's values from memory:
// capsoni-corradi-1999, hodge-belytschko-1968), hopkins-wang-1954 (circular plates, from memory,
// integrated again by us).
// Limit analysis knows no change of shape and no elasticity. So Young's modulus is a thousand times
// that of steel: the load does not depend on it, and deflection stays below a fiftieth of the
// thickness, where stretching of the mid-surface does not count.
#include "tests/support/curved_sheet.hpp"
#include "tests/support/load_path.hpp"
#include "tests/support/verification_record.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

namespace flangewright {
namespace {

using Eigen::Vector3d;
using support::ShellTrial;

constexpr double E = 200e6;
constexpr double nu = 0.3;
constexpr double flow = 250;
constexpr double h = 20;
constexpr double half_side = 500;
constexpr double plastic_moment = 0.25 * flow * h * h; // per length
// Gauss layers carry more than this: 0.1 % with 24, 1 % with 8.
constexpr int n_layers = 24;

shell::Section perfect_sheet() {
    return {
        {E, nu}, std::make_shared<support::PerfectFlow>(flow), h, shell::gauss_layers(n_layers)};
}

enum class Edge { supported, clamped };

// A quarter, centre at node (0, 0); lines draw together toward the edges, where a clamped plate
// folds within one row of elements.
support::CurvedPatch quarter_square(int n) {
    const auto place = [](double share) { return half_side * share * (1.85 - 0.85 * share); };
    return support::curve_patch(n, n, [&](double x, double y) {
        return Vector3d(place(x), place(y), 0);
    });
}

// Pressure at a deflection far past collapse, and how much the last doubling of the deflection
// added.
struct Plateau {
    double load = 0;
    double rise = 0;
    double deflection = 0;
};

Plateau press(ShellTrial& plate, double unit_pressure, double elastic_deflection) {
    support::LoadPath path(
        plate,
        plate.load_per_area({0, 0, -unit_pressure}),
        0,
        -Vector3d::UnitZ(),
        {.tolerance = 1e-6}
    );
    Plateau plateau;
    for (const double times : {1., 2., 4., 8., 16.}) {
        const double before = plateau.load;
        EXPECT_TRUE(path.move_to(times * elastic_deflection, 5)) << times;
        plateau.load = path.now().load;
        plateau.rise = plateau.load / before - 1;
    }
    plateau.deflection = path.now().displacement;
    return plateau;
}

Plateau square(int n, Edge edge) {
    ShellTrial plate(perfect_sheet(), quarter_square(n));
    plate.mirror(plate.patch.line(0), Vector3d::UnitX());
    plate.mirror(support::line_across(plate.patch, 0), Vector3d::UnitY());
    const std::vector<int> far = plate.patch.line(n);
    const std::vector<int> side = support::line_across(plate.patch, n);
    plate.hold(far, Vector3d::UnitZ());
    plate.hold(side, Vector3d::UnitZ());
    plate.hold_lean(far, Vector3d::UnitY());
    plate.hold_lean(side, Vector3d::UnitX());
    if (edge == Edge::clamped) {
        plate.hold_lean(far, Vector3d::UnitX());
        plate.hold_lean(side, Vector3d::UnitY());
    }
    constexpr double side_length = 2 * half_side;
    const double unit = plastic_moment / (side_length * side_length);
    const double D = E * h * h * h / (12 * (1 - nu * nu));
    const double share = edge == Edge::clamped ? 0.00126 * 44 : 0.00406 * 25;
    return press(plate, unit, share * unit * std::pow(side_length, 4) / D);
}

// A quarter of a disc: a grid over the inner square [0, 1/2]^2 of the unit disc, bulged, and two
// grids from its far sides to the rim.
struct QuarterDisc {
    support::CurvedPatch curved;
    std::vector<int> on_x; ///< nodes of the line y = 0
    std::vector<int> on_y;
    std::vector<int> rim;
    int centre = 0;
};

constexpr double disc_radius = 500;

// Places over the radius. Inner grid: i, j from 0 to n; outer ones: k from the inner grid's side
// (0) to the rim (n).
Eigen::Vector2d inner_place(int n, int i, int j) {
    const double x = static_cast<double>(i) / n;
    const double y = static_cast<double>(j) / n;
    // The far corner is drawn in to the circle of radius 0.55 halfway.
    const double draw = 1 - 0.2 * x * y;
    return 0.5 * draw * Eigen::Vector2d(x, y);
}

QuarterDisc quarter_disc(int n) {
    std::vector<Eigen::Vector3d> places;
    Eigen::MatrixXi inner(n + 1, n + 1);
    const auto add = [&](const Eigen::Vector2d& at) {
        places.emplace_back(disc_radius * at.x(), disc_radius * at.y(), 0);
        return static_cast<int>(places.size()) - 1;
    };
    for (int i = 0; i <= n; ++i) {
        for (int j = 0; j <= n; ++j) {
            inner(i, j) = add(inner_place(n, i, j));
        }
    }
    // Walks round the far sides of the inner grid, from the x axis to the y axis.
    Eigen::MatrixXi outer(2 * n + 1, n + 1);
    for (int side = 0; side <= 2 * n; ++side) {
        const int i = std::min(n, 2 * n - side);
        const int j = std::min(n, side);
        const double angle = 0.25 * std::numbers::pi * side / n;
        const Eigen::Vector2d end(std::cos(angle), std::sin(angle));
        outer(side, 0) = inner(i, j);
        for (int k = 1; k <= n; ++k) {
            const double share = static_cast<double>(k) / n;
            const double out = share * (1.85 - 0.85 * share); // drawn together at the rim
            outer(side, k) = add((1 - out) * inner_place(n, i, j) + out * end);
        }
    }
    QuarterDisc disc;
    auto& patch = disc.curved.patch;
    const auto add_quads = [&](const Eigen::MatrixXi& grid, bool is_outer) {
        for (int a = 0; a + 1 < grid.rows(); ++a) {
            for (int b = 0; b + 1 < grid.cols(); ++b) {
                std::array<int, 4> quad{
                    grid(a, b), grid(a + 1, b), grid(a + 1, b + 1), grid(a, b + 1)};
                if (is_outer) { // round, then out: turns the other way
                    std::swap(quad[1], quad[3]);
                }
                patch.quads.push_back(quad);
            }
        }
    };
    add_quads(inner, false);
    add_quads(outer, true);
    patch.positions.resize(3, static_cast<Eigen::Index>(places.size()));
    for (std::size_t node = 0; node < places.size(); ++node) {
        patch.positions.col(static_cast<Eigen::Index>(node)) = places[node];
        const auto at = static_cast<int>(node);
        if (std::abs(places[node].y()) < 1e-9 * disc_radius) {
            disc.on_x.push_back(at);
        }
        if (std::abs(places[node].x()) < 1e-9 * disc_radius) {
            disc.on_y.push_back(at);
        }
        if (places[node].norm() > (1 - 1e-9) * disc_radius) {
            disc.rim.push_back(at);
        }
    }
    disc.curved.directors = Vector3d::UnitZ().replicate(1, patch.positions.cols());
    return disc;
}

Plateau circle(int n, Edge edge) {
    const QuarterDisc disc = quarter_disc(n);
    ShellTrial plate(perfect_sheet(), disc.curved);
    plate.mirror(disc.on_y, Vector3d::UnitX());
    plate.mirror(disc.on_x, Vector3d::UnitY());
    plate.hold(disc.rim, Vector3d::UnitZ());
    if (edge == Edge::clamped) {
        for (const int node : disc.rim) {
            plate.fix(node, 3);
            plate.fix(node, 4);
        }
    }
    const double unit = plastic_moment / (disc_radius * disc_radius);
    const double D = E * h * h * h / (12 * (1 - nu * nu));
    // Centre of a circular plate (textbook): q R^4/(64 D), times (5 + nu)/(1 + nu) when supported.
    const double share = edge == Edge::clamped ? 12.5 / 64 : 6.5 / 64 * (5 + nu) / (1 + nu);
    return press(plate, unit, share * unit * std::pow(disc_radius, 4) / D);
}

struct LimitLoad {
    const char* check;
    const char* source;
    const char* figure;
    double reference;
    Plateau (*press)(int n, Edge edge);
    Edge edge;
    std::vector<int> meshes;
    std::string (*mesh)(int n);
};

void PrintTo(const LimitLoad& trial, std::ostream* stream) {
    *stream << trial.check;
}

class PlateUnderPressure : public testing::TestWithParam<LimitLoad> {};

TEST_P(PlateUnderPressure, CollapsesAtItsLimitLoad) {
    const LimitLoad& trial = GetParam();
    support::Figure figure{
        .table = "collapse",
        .check = trial.check,
        .source = trial.source,
        .figure = trial.figure,
        .reference = trial.reference};
    for (const int n : trial.meshes) {
        const Plateau plateau = trial.press(n, trial.edge);
        EXPECT_LT(plateau.rise, 0.01) << "still rising";
        EXPECT_LT(plateau.deflection, 0.02 * h) << "no longer a small deflection";
        figure.mesh = trial.mesh(n);
        figure.measured = plateau.load;
        support::compare_finest(n == trial.meshes.back(), figure, {.width = 0.02});
    }
}

constexpr const char* square_source = "plate-limit-analysis, computed";
constexpr const char* circle_source = "hopkins-wang-1954, from memory, integrated by us";

std::string square_name(int n) {
    return support::mesh_name(n, n);
}
std::string circle_name(int n) {
    return "3 x " + support::mesh_name(n, n);
}

INSTANTIATE_TEST_SUITE_P(
    Of,
    PlateUnderPressure,
    testing::Values(
        LimitLoad{
            "square plate, supported",
            square_source,
            "q L^2 over plastic moment",
            25.02,
            square,
            Edge::supported,
            {4, 8, 16},
            square_name},
        LimitLoad{
            "square plate, clamped",
            square_source,
            "q L^2 over plastic moment",
            44.1,
            square,
            Edge::clamped,
            {4, 8, 16},
            square_name},
        LimitLoad{
            "circular plate, supported",
            circle_source,
            "q R^2 over plastic moment",
            6.516,
            circle,
            Edge::supported,
            {2, 4, 8},
            circle_name},
        LimitLoad{
            "circular plate, clamped",
            circle_source,
            "q R^2 over plastic moment",
            12.55,
            circle,
            Edge::clamped,
            {2, 4, 8},
            circle_name}
    ),
    [](const auto& trial) {
        std::string name = trial.param.check;
        std::erase_if(name, [](char c) { return c == ' ' || c == ','; });
        return name;
    }
);

} // namespace
} // namespace flangewright
