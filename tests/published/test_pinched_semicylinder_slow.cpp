// A semi-cylinder clamped at one end and pinched at the middle of the other.
// Source: sze-liu-lo-2004, table in data/pinched_semicylinder.csv.
#include "tests/support/curved_sheet.hpp"
#include "tests/support/reference_table.hpp"
#include "tests/support/verification_record.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright {
namespace {

using Eigen::Vector3d;

// A half: i from the crown to the straight edge, j from the free end to the clamped one.
class Half : public support::ShellTrial {
public:
    explicit Half(int n)
        : ShellTrial(
            support::elastic_section(2068.5, 0.3, 3),
            support::cylinder_part(101.6, 0.5 * std::numbers::pi, 304.8, n, n)
        ) {
        mirror(patch.line(0), Vector3d::UnitX());
        mirror(patch.line(n), Vector3d::UnitZ()); // keeps height, does not turn about the axis
        clamp(support::line_across(patch, n));
    }

    [[nodiscard]] equilibrium::DeadLoads full_force() const {
        return force_on(patch.node(0, 0), {0, 0, -0.5 * 2000});
    }
    [[nodiscard]] double down() const { return -moved(patch.node(0, 0), Vector3d::UnitZ()); }
};

TEST(PinchedSemicylinder, DentsAsPublished) {
    const support::ReferenceTable published("pinched_semicylinder");
    support::Figure figure{
        .table = "far_bent",
        .check = "pinched semi-cylinder",
        .source = "sze-liu-lo-2004, second-hand"};
    for (const int n : {16, 24, 32}) {
        Half shell(n);
        figure.mesh = support::mesh_name(n, n);
        support::Worst worst;
        double from = 0;
        for (std::size_t row = 1; row < published.n_rows(); ++row) {
            const double to = published.number(row, "load");
            const auto report =
                shell.load(shell.full_force(), from, to, support::thin_sheet_limits(1));
            ASSERT_EQ(report.end, equilibrium::PathEnd::done) << to;
            from = to;
            worst.add(shell.down(), published.number(row, "down"));
        }
        const bool is_finest = n == 32;
        support::compare_finest(
            is_finest,
            figure.of("dent, full load", shell.down(), published.at("load", 1, "down")),
            {.width = 0.02}
        );
        if (is_finest) {
            support::compare_worst(figure, worst, 0.02);
        }
    }
}

} // namespace
} // namespace flangewright
