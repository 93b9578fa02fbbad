// The layered section against the integrals over the thickness that it stands for.
#include "solver/shell/layered_section.hpp"
#include "tests/support/flow_law.hpp"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

namespace flangewright::shell {
namespace {

constexpr double E = 70000;
constexpr double nu = 0.33;
constexpr unsigned seed = 99;

Section section_of(std::shared_ptr<const material::HardeningLaw> law, double t, int n_layers) {
    return {{E, nu}, std::move(law), t, gauss_layers(n_layers)};
}

// Curvature along 1, none across: (E11 + E22, E11 - E22, 2 E12) per unit height.
SectionStrain cylinder(double curvature) {
    SectionStrain strain;
    strain.bending << curvature, curvature, 0;
    return strain;
}

SectionForce force_of(const Section& section, const SectionStrain& strain) {
    const std::vector<material::PointMemory> virgin(section.layers.position.size());
    return integrate_section(section, strain, {}, virgin, true);
}

// The resultant holds half of sum and difference: its first two entries add to the moment along 1.
double moment_along(const SectionForce& force) {
    return force.resultant[3] + force.resultant[4];
}

double moment_across(const SectionForce& force) {
    return force.resultant[3] - force.resultant[4];
}

// Plate bending: M1 = E t^3/(12 (1 - nu^2)) kappa, M2 = nu M1.
TEST(LayeredSection, BendsWithThePlateStiffness) {
    const double t = 1.3;
    const double kappa = 1e-7;
    const double finite_strain = 1e-6; // terms of order kappa t
    const SectionForce force =
        force_of(section_of(support::endless_elasticity(), t, 2), cylinder(kappa));
    const double M = E * t * t * t / (12 * (1 - nu * nu)) * kappa;
    EXPECT_NEAR(moment_along(force), M, finite_strain * M);
    EXPECT_NEAR(moment_across(force), nu * M, finite_strain * M);
    EXPECT_NEAR(force.resultant[0], 0, finite_strain * M / t);
}

// Limit moment of a plane-strain strip without hardening: 2/sqrt3 Y t^2/4 (reference benchmarks
// 05).
TEST(LayeredSection, ReachesTheLimitMomentWithoutHardening) {
    const double t = 0.8;
    const double Y = 72;
    const double kappa = 0.02 / t; // ten times the curvature of first yield
    // Elastic core: 1/(3 x 10^2); strains of 1 % change the stress measure by 1 % of what is
    // uneven.
    const double tolerance = 6e-3;
    const SectionForce force =
        force_of(section_of(std::make_shared<support::PerfectFlow>(Y), t, 48), cylinder(kappa));
    EXPECT_NEAR(moment_along(force) / (2 / std::sqrt(3.0) * Y * t * t / 4), 1, tolerance);
}

TEST(LayeredSection, TangentIsTheDerivativeOfTheResultants) {
    std::mt19937 generator(seed);
    std::uniform_real_distribution<double> number(-1, 1);
    const Section section = section_of(support::swift(330, 0.0032, 0.22), 1, 8);
    double worst = 0;
    for (int n = 0; n < 200; ++n) {
        Eigen::Matrix<double, 9, 1> at;
        for (int i = 0; i < 9; ++i) {
            at[i] = number(generator) * (i < 3 ? 0.02 : 0.04);
        }
        const FibreStretch fibre{1 + 0.02 * number(generator), 0.02 * number(generator)};
        const std::vector<material::PointMemory> memory(8);
        const auto answer = [&](const Eigen::Matrix<double, 9, 1>& e) {
            return integrate_section(
                section, {e.head<3>(), e.segment<3>(3), e.tail<3>()}, fibre, memory, true
            );
        };
        const SectionForce here = answer(at);
        ASSERT_TRUE(here.has_converged);
        for (int i = 0; i < 9; ++i) {
            constexpr double h = 1e-8;
            const Eigen::Matrix<double, 9, 1> step = h * Eigen::Matrix<double, 9, 1>::Unit(i);
            const Eigen::Matrix<double, 9, 1> slope =
                (answer(at + step).resultant - answer(at - step).resultant) / (2 * h);
            worst = std::max(worst, (slope - here.tangent.col(i)).norm() / here.tangent.norm());
        }
    }
    RecordProperty("worst", std::to_string(worst));
    EXPECT_LT(worst, 1e-6) << "seed " << seed;
}

// Plane strain: what flows keeps its volume, so the thickness shrinks as the length grows.
TEST(LayeredSection, RemembersHowAStretchThinsTheSheet) {
    const Section section = section_of(support::swift(330, 0.0032, 0.22), 1, 16);
    std::vector<material::PointMemory> memory(16);
    FibreStretch fibre;
    const double e = 0.1;
    const double E11 = 0.5 * (std::exp(2 * e) - 1);
    SectionStrain stretched;
    stretched.membrane << E11, E11, 0;
    ASSERT_TRUE(remember_section(section, stretched, fibre, memory));
    // What sets both apart is the elastic growth in volume, about (1 - 2 nu) 3/2 stress/E.
    EXPECT_NEAR(std::log(fibre.mean), -e, 2e-3);
    EXPECT_NEAR(fibre.slope, 0, 1e-12);
    for (const material::PointMemory& point : memory) {
        EXPECT_NEAR(point.equivalent, e * 2 / std::sqrt(3.0), 0.005);
    }
}

// In a bend without hardening of volume the thickness stretch at height z is about 1 - kappa z.
TEST(LayeredSection, RemembersThatTheInnerHalfOfABendThickens) {
    const Section section = section_of(support::swift(330, 0.0032, 0.22), 1, 16);
    std::vector<material::PointMemory> memory(16);
    FibreStretch fibre;
    const double kappa = 0.1;
    ASSERT_TRUE(remember_section(section, cylinder(kappa), fibre, memory));
    EXPECT_NEAR(fibre.slope, -kappa, 0.1 * kappa);
}

TEST(LayeredSection, LeavesTheMemoryAloneWhenAPointTurnsInsideOut) {
    const Section section = section_of(support::swift(330, 0.0032, 0.22), 1, 4);
    std::vector<material::PointMemory> memory(4);
    FibreStretch fibre;
    SectionStrain crushed;
    crushed.bending << -4, 0, 0; // inside out at the outer layers only
    EXPECT_FALSE(remember_section(section, crushed, fibre, memory));
    EXPECT_FALSE(force_of(section, crushed).has_converged);
    EXPECT_EQ(fibre.mean, 1);
    for (const material::PointMemory& point : memory) {
        EXPECT_EQ(point.equivalent, 0);
    }
}

TEST(LayeredSection, FacesStayHalfAPresentThicknessOffTheMiddle) {
    const FibreStretch fibre{0.9, -0.3};
    EXPECT_DOUBLE_EQ(fibre_height(fibre, 0.6, 1.2), 0.9 * 0.6);
    EXPECT_DOUBLE_EQ(fibre_height(fibre, -0.6, 1.2), -0.9 * 0.6);
    // The fibre once in the middle moves outward when the inner half thickens.
    EXPECT_NEAR(fibre_height(fibre, 0, 1.2), 0.3 * 1.2 * 1.2 / 8, 1e-15);
}

} // namespace
} // namespace flangewright::shell
