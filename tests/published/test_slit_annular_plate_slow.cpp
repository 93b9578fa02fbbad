// A flat ring cut open and lifted along one edge of the cut: large rotations with twist.
// Source: in the head lines of data/slit_annular_plate.csv.
#include "tests/support/curved_sheet.hpp"
#include "tests/support/reference_table.hpp"
#include "tests/support/verification_record.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace flangewright {
namespace {

constexpr double inner_radius = 6;
constexpr double outer_radius = 10;
constexpr double load_per_length = 0.8;

// Asked: 1 %; the reference itself is a mesh of shells (reference benchmarks 01, "Traps").
constexpr double tolerance = 0.01;

support::MappedPatch ring(int n_round, int n_wide) {
    return support::map_patch(n_round, n_wide, [](double round, double out) {
        // The other way round than the angle, so that elements run counter-clockwise.
        const double radius = outer_radius + (inner_radius - outer_radius) * out;
        const double angle = 2 * std::numbers::pi * round;
        return Eigen::Vector3d(radius * std::cos(angle), radius * std::sin(angle), 0);
    });
}

struct Lift {
    double inner = 0;
    double outer = 0;
};

// Lifts at some shares of the full load.
std::vector<Lift> lifts(int n_round, int n_wide, const std::vector<double>& loads) {
    support::SheetTrial trial(support::elastic_section(21e6, 0, 0.03), ring(n_round, n_wide));
    trial.clamp(trial.patch.line(0));
    equilibrium::DeadLoads full = equilibrium::DeadLoads::none(trial.model.n_nodes());
    const std::vector<int> edge = trial.patch.line(n_round);
    for (std::size_t i = 0; i < edge.size(); ++i) {
        const double share = i == 0 || i + 1 == edge.size() ? 0.5 : 1;
        full.on_positions(2, edge[i]) =
            share * load_per_length * (outer_radius - inner_radius) / n_wide;
    }
    std::vector<Lift> found;
    double from = 0;
    for (const double to : loads) {
        const auto report =
            trial.load(full, from, to, support::thin_sheet_limits(0.1 / (to - from)));
        EXPECT_EQ(report.end, equilibrium::PathEnd::done) << to;
        from = to;
        found.push_back(
            {trial.state.positions(2, edge.back()), trial.state.positions(2, edge.front())}
        );
    }
    return found;
}

TEST(SlitAnnularPlate, LiftsAsPublished) {
    const support::ReferenceTable published("slit_annular_plate");
    const std::vector<double> loads{0.1, 0.3, 0.6, 1};
    support::Figure figure{
        .table = "far_bent",
        .check = "slit annular plate lifted along the slit",
        .source = "sze-liu-lo-2004, second-hand"};
    for (const int n_wide : {5, 15}) {
        const bool is_finest = n_wide == 15;
        const int n_round = 8 * n_wide;
        const std::vector<Lift> found = lifts(n_round, n_wide, loads);
        ASSERT_EQ(found.size(), loads.size());
        figure.mesh = support::mesh_name(n_round, n_wide);
        support::Worst worst;
        for (std::size_t i = 0; i < loads.size(); ++i) {
            worst.add(found[i].inner, published.at("load", loads[i], "inner"));
            worst.add(found[i].outer, published.at("load", loads[i], "outer"));
        }
        const auto judge = [&](const char* name, double measured, const char* column) {
            support::compare_finest(
                is_finest,
                figure.of(name, measured, published.at("load", 1, column)),
                {.width = tolerance}
            );
        };
        judge("inner corner, full load", found.back().inner, "inner");
        judge("outer corner, full load", found.back().outer, "outer");
        if (is_finest) {
            support::compare_worst(figure, worst, tolerance);
        }
    }
}

} // namespace
} // namespace flangewright
