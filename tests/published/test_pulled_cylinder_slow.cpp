// An open cylinder pulled apart at mid-length by two opposite forces until its wall snaps through.
// Source: sze-liu-lo-2004, table in data/pulled_open_cylinder.csv.
#include "tests/support/curved_sheet.hpp"
#include "tests/support/reference_table.hpp"
#include "tests/support/verification_record.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright {
namespace {

using Eigen::Vector3d;

// An eighth: i from the force to 90 deg round, j from mid-length to the free end. A lies under the
// force, B at mid-length and C at the free end 90 deg round.
class Eighth : public support::ShellTrial {
public:
    explicit Eighth(int n_round)
        : ShellTrial(
            support::elastic_section(10.5e6, 0.3125, 0.094),
            support::cylinder_part(4.953, 0.5 * std::numbers::pi, 0.5 * 10.35, n_round, n_round / 2)
        ) {
        mirror(patch.line(0), Vector3d::UnitX());
        mirror(patch.line(patch.n_long), Vector3d::UnitZ());
        mirror(support::line_across(patch, 0), Vector3d::UnitY());
    }

    [[nodiscard]] equilibrium::DeadLoads full_force() const {
        return force_on(patch.node(0, 0), {0, 0, 0.25 * 40000});
    }
    [[nodiscard]] double a() const { return moved(patch.node(0, 0), Vector3d::UnitZ()); }
    [[nodiscard]] double b() const {
        return -moved(patch.node(patch.n_long, 0), Vector3d::UnitX());
    }
    [[nodiscard]] double c() const {
        return -moved(patch.node(patch.n_long, patch.n_wide), Vector3d::UnitX());
    }
};

// The wall snaps between 0.5 and 0.525 of the full load; nothing is compared there.
TEST(PulledOpenCylinder, MovesBeforeAndAfterItsWallSnapsAsPublished) {
    const support::ReferenceTable published("pulled_open_cylinder");
    support::Figure figure{
        .table = "far_bent",
        .check = "open cylinder pulled apart",
        .source = "sze-liu-lo-2004, second-hand"};
    for (const int n : {12, 16, 24}) {
        Eighth shell(n);
        figure.mesh = support::mesh_name(n, n / 2);
        support::Worst worst;
        double from = 0;
        for (const double to : {0.1, 0.25, 0.5, 0.6, 1.0}) {
            const auto report = shell.load(
                shell.full_force(), from, to, support::thin_sheet_limits(0.025 / (to - from))
            );
            ASSERT_EQ(report.end, equilibrium::PathEnd::done) << to;
            from = to;
            worst.add(shell.a(), published.at("load", to, "a"));
            worst.add(shell.b(), published.at("load", to, "b"));
            worst.add(shell.c(), published.at("load", to, "c"));
        }
        const bool is_finest = n == 24;
        const auto judge = [&](const char* name, double measured, const char* column) {
            support::compare_finest(
                is_finest,
                figure.of(name, measured, published.at("load", 1, column)),
                {.width = 0.02}
            );
        };
        judge("A, full load", shell.a(), "a");
        judge("B, full load", shell.b(), "b");
        judge("C, full load", shell.c(), "c");
        if (is_finest) {
            support::compare_worst(figure, worst, 0.02);
        }
    }
}

} // namespace
} // namespace flangewright
