// The shell with a yield law of a rolled sheet: the rolling direction stays while the local axes
// turn, and thickness and moment follow the law.
#include "solver/material/yield_figures.hpp"
#include "solver/shell/recover.hpp"
#include "solver/shell/shell_model.hpp"
#include "tests/support/elastic_sheet.hpp"
#include "tests/support/yield_sets.hpp"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

namespace flangewright::shell {
namespace {

constexpr double E = 70000;
constexpr double nu = 0.33;
constexpr double degree = std::numbers::pi / 180;

Section rolled(std::shared_ptr<const material::YieldLaw> law, double angle, int n_layers = 4) {
    Section section{{E, nu}, support::swift(330, 0.0032, 0.22), 1, gauss_layers(n_layers)};
    section.yield = std::move(law);
    section.rolling_direction = {std::cos(angle), std::sin(angle), 0};
    return section;
}

// A quarter of an annulus, 10 to 14 mm, whose local first axes follow its arcs.
ShellModel sector(const Section& section) {
    const support::MappedPatch patch = support::map_patch(8, 3, [](double along, double across) {
        const double radius = 10 + 4 * across;
        const double angle = -1.5 * along;
        return Eigen::Vector3d(radius * std::cos(angle), radius * std::sin(angle), 0);
    });
    return make_shell_model(
        section,
        patch.positions,
        Eigen::Vector3d::UnitZ().replicate(1, patch.positions.cols()),
        patch.quads,
        [](const Eigen::Vector3d& middle) { return Eigen::Vector3d(middle.y(), -middle.x(), 0); }
    );
}

// In-plane stretch of tension at `angle` from the rolling direction to the plastic strain p, along
// x. Its shear is what such a sheet does; source: yield_law.hpp.
struct Tension {
    double stress = 0;
    Eigen::Matrix2d log_strain;
};

Tension tension_along_x(const Section& section, double angle, double p) {
    const material::SplitStress unit(1, 1, 0);
    const material::LaidYield laid{*section.yield, material::RollingTurn::by(angle)};
    const double stress = section.hardening->at(p).stress / material::equivalent_stress(laid, unit);
    const material::SplitStrain plastic = p * material::flow_direction(laid, unit);
    Tension tension{stress, {}};
    tension.log_strain << stress / E + plastic[0] + plastic[1], plastic[2], plastic[2],
        -nu * stress / E + plastic[0] - plastic[1];
    return tension;
}

Eigen::Matrix2d stretch_of(const Eigen::Matrix2d& log_strain) {
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix2d> parts(log_strain);
    const Eigen::Vector2d stretch = parts.eigenvalues().array().exp().matrix();
    return parts.eigenvectors() * stretch.asDiagonal() * parts.eigenvectors().transpose();
}

// One homogeneous stretch of a sheet whose local axes turn by a quarter: the same plastic strain
// and thickness everywhere, those of tension at the angle of the rolling direction in the blank.
TEST(RolledSheet, KeepsItsRollingDirectionWhileLocalAxesTurn) {
    constexpr double p = 0.1;
    for (const double angle : {0.0, 25.0, 45.0, 90.0, 130.0}) {
        const Section section = rolled(support::yield_set("2090-T3_yld2000"), angle * degree);
        const ShellModel model = sector(section);
        SheetState state = virgin_state(model);
        const Tension tension = tension_along_x(section, angle * degree, p);
        state.positions.topRows<2>() =
            (stretch_of(tension.log_strain) * state.positions.topRows<2>()).eval();
        ASSERT_TRUE(remember_shape(model, state, 1));
        const SheetFields fields = recover_fields(model, state);
        const double r =
            material::tension_at(*section.yield, angle * degree).r_value; // thins by 1/(1 + r)
        const Eigen::Matrix2d& e = tension.log_strain;
        const double along = e(0, 0) - tension.stress / E;
        const double thickness = std::exp(-nu * tension.stress / E - along / (1 + r));
        for (int node = 0; node < model.n_nodes(); ++node) {
            EXPECT_NEAR(fields.plastic_strain[node], p, 1e-9) << angle;
            EXPECT_NEAR(fields.thickness[node], thickness, 1e-9) << angle;
        }
    }
}

// Equal biaxial tension of this law flows at 0.89 of the hardening curve (reference benchmarks 08):
// a section must not be taken for elastic up to the curve itself.
TEST(RolledSheet, IsNotTakenForElasticBelowTheCurveWhereItFlowsEarlier) {
    const Section section = rolled(support::yield_set("2024-O_hill48"), 0, 8);
    const double stress = 0.93 * section.hardening->at(0).stress;
    SectionStrain strain;
    strain.membrane << 2 * (1 - nu) * stress / E, 0, 0;
    const std::vector<material::PointMemory> virgin(8);
    std::vector<material::PointMemory> touched(8);
    touched[3].equivalent = 1e-12;
    const SectionForce quick = integrate_section(section, strain, {}, virgin, true);
    const SectionForce whole = integrate_section(section, strain, {}, touched, true);
    EXPECT_LT((quick.resultant - whole.resultant).norm(), 1e-8 * whole.resultant.norm());
    EXPECT_LT((quick.tangent - whole.tangent).norm(), 1e-8 * whole.tangent.norm());
    EXPECT_LT(quick.resultant[0], 0.99 * stress); // so it has flowed
}

double plastic_moment(const Section& section) {
    std::vector<material::PointMemory> memory(section.layers.position.size());
    SectionStrain strain;
    double moment = 0;
    for (int i = 1; i <= 100; ++i) {
        const double curvature = 0.0015 * i; // R/t = 6.7 at the end
        strain.bending << curvature, curvature, 0;
        const SectionForce force = integrate_section(section, strain, {}, memory, false);
        moment = force.resultant[3] + force.resultant[4];
        FibreStretch not_followed;
        EXPECT_TRUE(remember_section(section, strain, not_followed, memory));
    }
    return moment;
}

// Fully plastic plane-strain bending: the moment is Y t^2/4 times the plane-strain stress over that
// of the curve, (1 + r)/sqrt(1 + 2 r). Source: hill-1948, as quoted by marciniak-duncan-hu-2002.
TEST(RolledSheet, BendsAtThePlaneStrainMomentOfNormalAnisotropy) {
    constexpr double Y = 72;
    Section plain = rolled(nullptr, 0, 40);
    plain.hardening = std::make_shared<support::PerfectFlow>(Y);
    const double von_mises = plastic_moment(plain); // 2/sqrt3, tests of layered_section
    for (const double r : {0.5, 1.0, 2.0}) {
        Section section = plain;
        section.yield = support::hill48(r, r, r);
        const double expected = std::sqrt(0.75) * (1 + r) / std::sqrt(1 + 2 * r) * von_mises;
        // The elastic core, a third of (yield strain over edge strain 0.075)^2 of the moment,
        // differs by a few of its tenths; all else (layers, measure of strain) is the same.
        EXPECT_NEAR(plastic_moment(section), expected, 1e-4 * expected) << r;
    }
}

TEST(RolledSheet, HasTheTangentThatIsTheDerivativeOfTheResultants) {
    const Section section = rolled(support::yield_set("2090-T3_yld2000"), 0.6, 8);
    std::vector<material::PointMemory> memory(8);
    FibreStretch fibre;
    SectionStrain strain;
    strain.rolling = material::RollingTurn::by(0.6);
    strain.membrane << 0.01, 0.004, 0.003;
    strain.bending << 0.05, 0.04, -0.02;
    ASSERT_TRUE(remember_section(section, strain, fibre, memory));
    std::mt19937 generator(5);
    std::uniform_real_distribution<double> number(-1, 1);
    constexpr double h = 1e-8;
    double worst = 0;
    for (int n = 0; n < 50; ++n) {
        Eigen::Matrix<double, 9, 1> at;
        for (int i = 0; i < 9; ++i) {
            at[i] = number(generator) * (i < 3 ? 0.02 : 0.04);
        }
        const auto answer = [&](const Eigen::Matrix<double, 9, 1>& e) {
            const SectionStrain now{e.head<3>(), e.segment<3>(3), e.tail<3>(), strain.rolling};
            return integrate_section(section, now, fibre, memory, true);
        };
        const SectionForce here = answer(at);
        Eigen::Matrix<double, 9, 9> differences;
        for (int i = 0; i < 9; ++i) {
            const Eigen::Matrix<double, 9, 1> step = h * Eigen::Matrix<double, 9, 1>::Unit(i);
            differences.col(i) =
                (answer(at + step).resultant - answer(at - step).resultant) / (2 * h);
        }
        worst = std::max(worst, (differences - here.tangent).norm() / here.tangent.norm());
    }
    RecordProperty("worst", std::to_string(worst));
    EXPECT_LT(worst, 1e-6); // rounding 1e-16/h, and the square of h over the yield strain
}

// The update with back stresses knows von Mises only, and must not stand in unasked.
TEST(RolledSheet, CanNotHaveBackStresses) {
    Section section = rolled(support::yield_set("2024-O_hill48"), 0);
    EXPECT_NO_THROW(sector(section));
    section.back_stresses = {{9000, 150}};
    EXPECT_THROW(sector(section), InternalError);
}

} // namespace
} // namespace flangewright::shell
