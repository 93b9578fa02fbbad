// A hemisphere with a hole of 18 deg, pulled and pushed at its rim by two pairs of forces.
// Source: sze-liu-lo-2004, table in data/hemisphere_hole.csv. The linear answer stands in
// test_linear_shells.cpp.
#include "tests/support/curved_sheet.hpp"
#include "tests/support/reference_table.hpp"
#include "tests/support/verification_record.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numbers>

namespace flangewright {
namespace {

constexpr double radius = 10;

// A quarter: i round from the force outward (on +x) to the force inward (on +y), j from the rim to
// the hole.

class Quarter : public support::ShellTrial {
public:
    explicit Quarter(int n)
        : ShellTrial(
            support::elastic_section(6.825e7, 0.3, 0.04),
            support::curve_patch(
                n,
                n,
                [](double round, double up) {
                    const double azimuth = 0.5 * std::numbers::pi * round;
                    const double height = 72 * std::numbers::pi / 180 * up;
                    return Eigen::Vector3d(
                        radius * std::cos(height) * std::cos(azimuth),
                        radius * std::cos(height) * std::sin(azimuth),
                        radius * std::sin(height)
                    );
                }
            )
        ) {
        mirror(patch.line(0), Eigen::Vector3d::UnitY());
        mirror(patch.line(n), Eigen::Vector3d::UnitX());
        hold(std::array{pulled()}, Eigen::Vector3d::UnitZ());
    }

    [[nodiscard]] int pulled() const { return patch.node(0, 0); }
    [[nodiscard]] int pushed() const { return patch.node(patch.n_long, 0); }
    // Forces on the quarter: half of those on the whole.
    [[nodiscard]] equilibrium::DeadLoads forces(double on_whole) const {
        equilibrium::DeadLoads loads = force_on(pulled(), {0.5 * on_whole, 0, 0});
        loads.on_positions.col(pushed()) = Eigen::Vector3d(0, -0.5 * on_whole, 0);
        return loads;
    }
};

// Steps of the load. With steps of an eighth Newton's method lands on another branch of
// equilibrium, stiffer and not the one that grows from rest.
constexpr double load_step = 0.0125;

struct Moves {
    double outward = 0;
    double inward = 0;
};

std::vector<Moves> moves(int n, const std::vector<double>& loads) {
    Quarter shell(n);
    const equilibrium::DeadLoads full = shell.forces(400);
    std::vector<Moves> found;
    double from = 0;
    for (const double to : loads) {
        const auto report =
            shell.load(full, from, to, support::thin_sheet_limits(load_step / (to - from)));
        EXPECT_EQ(report.end, equilibrium::PathEnd::done) << to;
        from = to;
        found.push_back(
            {shell.moved(shell.pulled(), Eigen::Vector3d::UnitX()),
             -shell.moved(shell.pushed(), Eigen::Vector3d::UnitY())}
        );
    }
    return found;
}

TEST(PulledHemisphere, MovesUnderItsForcesAsPublished) {
    const support::ReferenceTable published("hemisphere_hole");
    const std::vector<double> loads{0.25, 0.5, 0.75, 1};
    support::Figure figure{
        .table = "far_bent",
        .check = "hemisphere with a hole of 18 deg",
        .source = "sze-liu-lo-2004, second-hand"};
    for (const int n : {8, 16, 24}) {
        const std::vector<Moves> found = moves(n, loads);
        figure.mesh = support::mesh_name(n, n);
        support::Worst worst;
        for (std::size_t i = 0; i < loads.size(); ++i) {
            worst.add(found[i].outward, published.at("load", loads[i], "outward"));
            worst.add(found[i].inward, published.at("load", loads[i], "inward"));
        }
        const bool is_finest = n == 24;
        const auto judge = [&](const char* name, double measured, const char* column) {
            support::compare_finest(
                is_finest,
                figure.of(name, measured, published.at("load", 1, column)),
                {.width = 0.02}
            );
        };
        judge("outward, full load", found.back().outward, "outward");
        judge("inward, full load", found.back().inward, "inward");
        if (is_finest) {
            support::compare_worst(figure, worst, 0.02);
        }
    }
}

} // namespace
} // namespace flangewright
