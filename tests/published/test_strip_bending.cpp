// A wide strip bent to a radius by couples alone and let go: moment, springback of curvature,
// stress left at the surface. Source: in the head lines of data/strip_bending.csv (small strain; a
// shell of finite strain differs by the order of (t/2R)^2, so bends of 20 thicknesses and more are
// compared).
#include "solver/shell/recover.hpp"
#include "tests/support/elastic_sheet.hpp"
#include "tests/support/reference_table.hpp"
#include "tests/support/verification_record.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright {
namespace {

// Asked (reference benchmarks, obligatory checks 6).
constexpr double moment_error = 0.005;
constexpr double ratio_error = 0.002;
constexpr double stress_error = 0.03;

constexpr double length = 4;
constexpr double width = 1;
constexpr int n_elements = 8;
constexpr int n_increments = 24;

struct BentStrip {
    std::string material; // as in the table
    double youngs_modulus = 0;
    std::shared_ptr<const material::HardeningLaw> flow;
    double radius = 0;
};

void PrintTo(const BentStrip& strip, std::ostream* stream) {
    *stream << strip.material << " to radius " << strip.radius;
}

struct Outcome {
    double moment = 0; // per width
    double curvature_held = 0;
    double curvature_released = 0;
    double surface_stress_released = 0;
};

class Bender {
public:
    explicit Bender(const BentStrip& strip)
        : trial_(
            {{strip.youngs_modulus, 0.33}, strip.flow, 1, shell::gauss_layers(24)},
            support::rectangle(length, width, n_elements, 1)
        ) {
        trial_.clamp(trial_.patch.line(0));
        for (int node = 0; node < trial_.model.n_nodes(); ++node) {
            trial_.fix(node, 1); // plane strain: no move along y, no lean toward y
            trial_.fix(node, 4);
        }
        for (const int node : end()) {
            trial_.fix(node, 3);
        }
        limits_.tolerance = 1e-7;
    }

    // Turns the free end on until it leans by `angle`, the strip all along on a circle to start
    // from.
    void bend(double angle) {
        for (int step = 1; step <= n_increments; ++step) {
            put_on_circle(angle * step / n_increments);
            const equilibrium::NewtonReport report = trial_.settle(limits_);
            ASSERT_EQ(report.end, equilibrium::NewtonEnd::converged) << step;
        }
    }

    [[nodiscard]] double moment() {
        const Eigen::VectorXd reactions = trial_.reactions();
        double sum = 0;
        for (const int node : end()) {
            sum += reactions[node * shell::dof_per_node + 3];
        }
        return sum / width;
    }

    // Takes the couple away.
    void release() {
        const double couple = moment() * width;
        equilibrium::DeadLoads loads = equilibrium::DeadLoads::none(trial_.model.n_nodes());
        for (const int node : end()) {
            trial_.set_free(node, 3);
            loads.moments(1, node) = 0.5 * couple; // about +y: z leans toward +x
        }
        equilibrium::PathLimits limits;
        limits.first_step = limits.largest_step = 0.1;
        limits.largest_turn = 1;
        limits.newton = limits_;
        const auto report = trial_.load(loads, 1, 0, limits);
        ASSERT_EQ(report.end, equilibrium::PathEnd::done);
    }

    // Turn of the free end over the length of the middle of the sheet.
    [[nodiscard]] double curvature() const {
        const Eigen::Vector3d director = trial_.state.directors.col(end().front());
        double arc = 0;
        for (int i = 0; i < n_elements; ++i) {
            const double turn = lean(i + 1) - lean(i);
            const double chord = (at(i + 1) - at(i)).norm();
            arc += std::abs(turn) > 1e-9 ? chord * 0.5 * turn / std::sin(0.5 * turn) : chord;
        }
        return std::atan2(director.x(), director.z()) / arc;
    }

    // Of the half that was stretched, linear through the outermost layer.
    [[nodiscard]] double outer_stress() const {
        const shell::SheetFields fields = shell::recover_fields(trial_.model, trial_.state);
        const int node = trial_.patch.node(n_elements / 2, 0);
        return 0.5 * (fields.stress_outer_face(0, node) - fields.stress_block_face(0, node));
    }

private:
    [[nodiscard]] std::vector<int> end() const { return trial_.patch.line(n_elements); }
    [[nodiscard]] Eigen::Vector3d at(int i) const {
        return trial_.state.positions.col(trial_.patch.node(i, 0));
    }
    [[nodiscard]] double lean(int i) const {
        const Eigen::Vector3d director = trial_.state.directors.col(trial_.patch.node(i, 0));
        return std::atan2(director.x(), director.z());
    }
    void put_on_circle(double angle) {
        const double radius = length / angle;
        for (int node = 0; node < trial_.model.n_nodes(); ++node) {
            const double turned = trial_.patch.positions(0, node) / radius;
            trial_.state.positions(0, node) = radius * std::sin(turned);
            trial_.state.positions(2, node) = radius * (std::cos(turned) - 1);
            trial_.state.directors.col(node) << std::sin(turned), 0, std::cos(turned);
        }
    }

    support::SheetTrial trial_;
    equilibrium::NewtonLimits limits_;
};

Outcome bend_and_release(const BentStrip& strip) {
    Outcome outcome;
    Bender bender(strip);
    bender.bend(length / strip.radius);
    outcome.moment = bender.moment();
    outcome.curvature_held = bender.curvature();
    bender.release();
    outcome.curvature_released = bender.curvature();
    outcome.surface_stress_released = bender.outer_stress();
    return outcome;
}

support::Figure figure_of(const BentStrip& strip) {
    std::string name =
        "strip " + strip.material + " bent to R " + std::to_string(std::lround(strip.radius));
    std::replace(name.begin(), name.end(), '_', ' ');
    return {
        .table = "strip",
        .check = name + ", let go",
        .source = "strip-bending-references, computed",
        .mesh = std::to_string(n_elements) + ", 24 layers"};
}

class StripBentToARadius : public testing::TestWithParam<BentStrip> {};

TEST_P(StripBentToARadius, HasTheMomentTheSpringbackAndTheStressOfTheFibreIntegral) {
    const support::ReferenceTable computed("strip_bending");
    const Outcome found = bend_and_release(GetParam());
    int n_rows = 0;
    for (std::size_t row = 0; row < computed.n_rows(); ++row) {
        if (computed.text(row, "material") != GetParam().material
            || computed.number(row, "radius") != GetParam().radius) {
            continue;
        }
        ++n_rows;
        const double moment = computed.number(row, "moment");
        const double ratio = computed.number(row, "radius_over_released_radius");
        const double stress = computed.number(row, "surface_stress_released");
        EXPECT_NEAR(1 / found.curvature_held, GetParam().radius, 1e-3 * GetParam().radius);
        const support::Figure figure = figure_of(GetParam());
        support::compare(figure.of("moment", found.moment, moment), {.width = moment_error});
        support::compare(
            figure.of("R over R released", found.curvature_released / found.curvature_held, ratio),
            {.width = ratio_error, .is_absolute = true}
        );
        support::compare(
            figure.of("surface stress left, MPa", found.surface_stress_released, stress),
            {.width = stress_error}
        );
    }
    EXPECT_EQ(n_rows, 1);
}

std::shared_ptr<const material::HardeningLaw> soft_2024() {
    return support::swift(326.8, 0.0012392, 0.226);
}

INSTANTIATE_TEST_SUITE_P(
    Of,
    StripBentToARadius,
    testing::Values(
        BentStrip{"2024_o", 73100, soft_2024(), 20},
        BentStrip{"2024_o", 73100, soft_2024(), 50},
        BentStrip{"perfect_72", 73100, std::make_shared<support::PerfectFlow>(72), 50},
        BentStrip{"perfect_145", 69000, std::make_shared<support::PerfectFlow>(145), 20}
    ),
    [](const auto& trial) {
        return trial.param.material + "_R" + std::to_string(static_cast<int>(trial.param.radius));
    }
);

// At ten thicknesses the moment of the shell stands 0.8 % below that of the small-strain integral,
// which leaves out terms of (t/2R)^2 = 0.25 %; springback and stress hold. The band states the
// deviation as it is known, from both sides.
TEST(StripBentToARadius, StandsJustBelowTheSmallStrainMomentAtTenThicknesses) {
    constexpr double R = 10;
    const Outcome found = bend_and_release({"2024_o", 73100, soft_2024(), R});
    const support::Figure figure = figure_of({"2024_o", 73100, soft_2024(), R});
    support::compare(
        figure.of("moment", found.moment, 44.118),
        {.width = 0.0025, .about = -0.0075, .asked = "0.5 %"}
    );
    support::compare(
        figure.of("R over R released", found.curvature_released / found.curvature_held, 0.93546),
        {.width = ratio_error, .is_absolute = true}
    );
    support::compare(
        figure.of("surface stress left, MPa", found.surface_stress_released, -67.891),
        {.width = stress_error}
    );
}

// Elastic limit, closed form: M = E t^3/(12 (1 - nu^2) R), and all of it springs back.
TEST(StripBentToARadius, SpringsBackFlatWhenItNeverFlowed) {
    constexpr double R = 500;
    const Outcome found = bend_and_release({"", 70000, support::endless_elasticity(), R});
    const double moment = 70000 / (12 * (1 - 0.33 * 0.33) * R);
    EXPECT_NEAR(found.moment, moment, 1e-4 * moment);
    EXPECT_NEAR(found.curvature_released / found.curvature_held, 0, 1e-6);
}

} // namespace
} // namespace flangewright
