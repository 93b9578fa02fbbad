// Von Mises flow in plane stress against closed forms of proportional paths, against central
// differences and against a finely stepped integration of the rate equations.
#include "solver/material/plane_stress_update.hpp"
#include "tests/solver/material/tangent_check.hpp"
#include "tests/support/flow_law.hpp"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace flangewright::material {
namespace {

constexpr double E = 70000;
constexpr double nu = 0.33;
constexpr double K = 330;
constexpr double eps0 = 0.0032;
constexpr double n_exponent = 0.22;
constexpr unsigned seed = 7150;

// The return map stops at 1e-12 of the flow stress.
constexpr double closed_form_error = 1e-9;

double flow(double p) {
    return K * std::pow(eps0 + p, n_exponent);
}

// In-plane components of a stress in split form.
Eigen::Vector3d components(const SplitStress& T) {
    return {0.5 * (T[0] + T[1]), 0.5 * (T[0] - T[1]), 0.5 * T[2]};
}

double mises(const SplitStress& T) {
    const Eigen::Vector3d s = components(T);
    return std::sqrt(s[0] * s[0] - s[0] * s[1] + s[1] * s[1] + 3 * s[2] * s[2]);
}

SplitStrain split(double e11, double e22, double e12) {
    return {0.5 * (e11 + e22), 0.5 * (e11 - e22), e12};
}

PointUpdate update(const SplitStrain& strain, double poisson = nu) {
    static const auto law = support::swift(K, eps0, n_exponent);
    return update_point({E, poisson}, *law, strain, {}, true);
}

class PlasticStrain : public testing::TestWithParam<double> {};

// Uniaxial: stress = Y(p), strain along = stress/E + p, across = -nu stress/E - p/2.
TEST_P(PlasticStrain, InUniaxialTensionFollowsTheFlowCurve) {
    const double p = GetParam();
    for (const double sign : {1.0, -1.0}) {
        const double across = -nu * flow(p) / E - p / 2;
        const PointUpdate point = update(split(sign * (flow(p) / E + p), sign * across, 0));
        const Eigen::Vector3d s = components(point.stress);
        ASSERT_TRUE(point.has_converged);
        EXPECT_NEAR(s[0], sign * flow(p), closed_form_error * flow(p));
        EXPECT_NEAR(s[1], 0, closed_form_error * flow(p));
        EXPECT_NEAR(point.memory.equivalent, p, closed_form_error);
        EXPECT_NEAR(point.thickness_strain, sign * across, closed_form_error);
    }
}

// Pure shear: stress = Y/sqrt3, tensor strain = stress/(2 G) + sqrt3/2 p; the thickness stays.
TEST_P(PlasticStrain, InPureShearFollowsTheFlowCurveOverRootThree) {
    const double p = GetParam();
    const double tau = flow(p) / std::sqrt(3.0);
    const double strain = tau * (1 + nu) / E + std::sqrt(3.0) / 2 * p;
    const PointUpdate point = update(split(0, 0, strain));
    EXPECT_NEAR(components(point.stress)[2], tau, closed_form_error * tau);
    EXPECT_NEAR(point.memory.equivalent, p, closed_form_error);
    EXPECT_NEAR(point.thickness_strain, 0, closed_form_error);
}

// Equal stretch both ways: stress = Y both ways, strain = (1 - nu) Y/E + p/2, thickness -2 of the
// plastic part.
TEST_P(PlasticStrain, InEqualStretchFollowsTheFlowCurve) {
    const double p = GetParam();
    const double strain = (1 - nu) * flow(p) / E + p / 2;
    const PointUpdate point = update(split(strain, strain, 0));
    const Eigen::Vector3d s = components(point.stress);
    EXPECT_NEAR(s[0], flow(p), closed_form_error * flow(p));
    EXPECT_NEAR(s[1], flow(p), closed_form_error * flow(p));
    EXPECT_NEAR(point.memory.equivalent, p, closed_form_error);
    EXPECT_NEAR(point.thickness_strain, -2 * nu * flow(p) / E - p, closed_form_error);
}

// Plane strain with nu = 1/2 is proportional from the start: stresses 2/sqrt3 Y and half of it,
// strain = (1 - nu^2) stress/E + sqrt3/2 p.
TEST_P(PlasticStrain, InPlaneStrainOfAnIncompressibleSheetIsProportional) {
    const double p = GetParam();
    const double stress = 2 / std::sqrt(3.0) * flow(p);
    const double strain = 0.75 * stress / E + std::sqrt(3.0) / 2 * p;
    const PointUpdate point = update(split(strain, 0, 0), 0.5);
    const Eigen::Vector3d s = components(point.stress);
    EXPECT_NEAR(s[0], stress, closed_form_error * stress);
    EXPECT_NEAR(s[1], 0.5 * stress, closed_form_error * stress);
    EXPECT_NEAR(point.memory.equivalent, p, closed_form_error);
    EXPECT_NEAR(point.thickness_strain, -strain, closed_form_error);
}

INSTANTIATE_TEST_SUITE_P(Of, PlasticStrain, testing::Values(1e-5, 2e-3, 0.05, 0.4));

// Published closed form: sigma1/Y = 1/sqrt(1 - nu + nu^2) at first yield with transverse strain
// held (reference benchmarks 03; 1.13308 at nu = 0.33).
TEST(PlaneStressUpdate, PlaneStrainFirstYieldsWhereVonMisesSays) {
    const double first = flow(0) / std::sqrt(1 - nu + nu * nu);
    EXPECT_NEAR(first / flow(0), 1.13308, 5e-6); // digits printed
    const double strain = first * (1 - nu * nu) / E;
    const PointUpdate before = update(split(strain * (1 - 1e-9), 0, 0));
    const PointUpdate after = update(split(strain * (1 + 1e-6), 0, 0));
    EXPECT_EQ(before.memory.equivalent, 0);
    EXPECT_NEAR(components(before.stress)[0], first, 1e-8 * first);
    EXPECT_GT(after.memory.equivalent, 0);
}

TEST(PlaneStressUpdate, UnloadsAlongTheElasticSlope) {
    const auto law = support::swift(K, eps0, n_exponent);
    const PointUpdate loaded = update(split(0.05, -0.025, 0.01));
    const SplitStrain back = split(-0.0005, 0.0001, 0.0002);
    const PointUpdate unloaded =
        update_point({E, nu}, *law, split(0.05, -0.025, 0.01) + back, loaded.memory, true);
    EXPECT_EQ(unloaded.memory.equivalent, loaded.memory.equivalent);
    const Eigen::Vector3d change = components(unloaded.stress) - components(loaded.stress);
    const double plane = E / (1 - nu * nu); // Hooke in plane stress
    EXPECT_NEAR(change[0], plane * (-0.0005 + nu * 0.0001), 1e-8 * E);
    EXPECT_NEAR(change[1], plane * (0.0001 - nu * 0.0005), 1e-8 * E);
    EXPECT_NEAR(change[2], E / (1 + nu) * 0.0002, 1e-8 * E);
}

// Rate equations in stress components, 3 x 3 plane-stress form (Simo and Taylor 1986):
// d sigma = C d e - (C n)(n C d e)/(n C n + h), n = gradient of the von Mises stress.
struct Rates {
    Eigen::Vector3d stress;
    double plastic;
};

Rates rates(const Eigen::Vector3d& s, double p, const Eigen::Vector3d& strain_rate) {
    Eigen::Matrix3d C;
    C << 1, nu, 0, nu, 1, 0, 0, 0, 0.5 * (1 - nu);
    C *= E / (1 - nu * nu);
    const double Y = std::sqrt(s[0] * s[0] - s[0] * s[1] + s[1] * s[1] + 3 * s[2] * s[2]);
    const Eigen::Vector3d n((s[0] - 0.5 * s[1]) / Y, (s[1] - 0.5 * s[0]) / Y, 3 * s[2] / Y);
    const double slope = n_exponent * flow(p) / (eps0 + p);
    const double multiplier = n.dot(C * strain_rate) / (n.dot(C * n) + slope);
    return {C * (strain_rate - multiplier * n), multiplier};
}

// Straight strain path from first yield on, fourth-order Runge-Kutta.
Eigen::Vector3d integrated_stress(const Eigen::Vector3d& strain, double& p, int n_steps) {
    Eigen::Matrix3d C;
    C << 1, nu, 0, nu, 1, 0, 0, 0, 0.5 * (1 - nu);
    C *= E / (1 - nu * nu);
    const Eigen::Vector3d trial = C * strain;
    const double size = std::sqrt(
        trial[0] * trial[0] - trial[0] * trial[1] + trial[1] * trial[1] + 3 * trial[2] * trial[2]
    );
    const double share = flow(0) / size;
    Eigen::Vector3d s = share * trial;
    p = 0;
    const Eigen::Vector3d step = (1 - share) / n_steps * strain;
    for (int i = 0; i < n_steps; ++i) {
        const Rates k1 = rates(s, p, step);
        const Rates k2 = rates(s + 0.5 * k1.stress, p + 0.5 * k1.plastic, step);
        const Rates k3 = rates(s + 0.5 * k2.stress, p + 0.5 * k2.plastic, step);
        const Rates k4 = rates(s + k3.stress, p + k3.plastic, step);
        s += (k1.stress + 2 * k2.stress + 2 * k3.stress + k4.stress) / 6;
        p += (k1.plastic + 2 * k2.plastic + 2 * k3.plastic + k4.plastic) / 6;
    }
    return s;
}

TEST(PlaneStressUpdate, InManySmallStepsFollowsTheRateEquations) {
    constexpr int n_steps = 10000;
    // Backward Euler is of first order: halving the step halves what is left.
    constexpr double first_order_error = 3e-5;
    const auto law = support::swift(K, eps0, n_exponent);
    for (const Eigen::Vector3d& path :
         {Eigen::Vector3d(0.1, 0, 0),
          Eigen::Vector3d(0.06, -0.05, 0.02),
          Eigen::Vector3d(0.08, 0.01, -0.06)}) { // e11, e22, 2 e12
        PointMemory memory;
        PointUpdate point;
        for (int i = 1; i <= n_steps; ++i) {
            const double share = static_cast<double>(i) / n_steps;
            point = update_point(
                {E, nu}, *law, share * split(path[0], path[1], 0.5 * path[2]), memory, false
            );
            memory = point.memory;
        }
        double p = 0;
        const Eigen::Vector3d expected = integrated_stress(path, p, n_steps);
        EXPECT_LT(
            (components(point.stress) - expected).norm(), first_order_error * expected.norm()
        );
        EXPECT_NEAR(memory.equivalent, p, first_order_error * p);
    }
}

// Fully plastic plane strain: stress ratio 1/2, sigma1 = 2/sqrt3 Y (reference benchmarks 03).
TEST(PlaneStressUpdate, PlaneStrainEndsAtTwoOverRootThreeOfTheFlowStress) {
    const auto law = support::swift(K, eps0, n_exponent);
    PointMemory memory;
    PointUpdate point;
    for (int i = 1; i <= 2000; ++i) {
        point = update_point({E, nu}, *law, split(0.3 * i / 2000, 0, 0), memory, false);
        memory = point.memory;
    }
    const Eigen::Vector3d s = components(point.stress);
    // Hardening keeps the elastic strain growing, which keeps the ratio a little below 1/2:
    // by about (1 - 2 nu)/2 x slope/E = 6e-4 at the end of the path.
    EXPECT_NEAR(s[1] / s[0], 0.5, 1e-3);
    EXPECT_NEAR(s[0] / flow(memory.equivalent), 1.154701, 1e-6);
}

struct RandomStates {
    std::mt19937 generator{seed};
    std::uniform_real_distribution<double> number{-1, 1};

    SplitStrain strain() {
        const double size = std::pow(10.0, -4 + 4 * std::abs(number(generator)));
        return size * SplitStrain(number(generator), number(generator), number(generator));
    }
    PointMemory memory() {
        const SplitStrain plastic = 0.1 * strain();
        return {
            plastic[0],
            plastic[1],
            plastic[2],
            2 * std::sqrt(plastic[0] * plastic[0] + plastic.tail<2>().squaredNorm() / 3),
        };
    }
};

TEST(PlaneStressUpdate, NeverLeavesTheYieldSurface) {
    constexpr int n_states = 100000;
    const std::vector<std::shared_ptr<const HardeningLaw>> laws{
        support::swift(K, eps0, n_exponent),
        std::make_shared<support::PerfectFlow>(72),
        std::make_shared<support::LinearFlow>(150, 700),
    };
    RandomStates random;
    int n_plastic = 0;
    for (int n = 0; n < n_states; ++n) {
        const HardeningLaw& law = *laws[static_cast<std::size_t>(n) % laws.size()];
        const PointMemory memory = random.memory();
        const PointUpdate point = update_point({E, nu}, law, random.strain(), memory, true);
        ASSERT_TRUE(point.has_converged) << "seed " << seed << ", state " << n;
        ASSERT_TRUE(point.stress.allFinite() && point.tangent.allFinite()) << "state " << n;
        ASSERT_TRUE(std::isfinite(point.thickness_strain)) << "state " << n;
        const double Y = law.at(point.memory.equivalent).stress;
        ASSERT_LE(mises(point.stress), Y * (1 + 1e-9)) << "seed " << seed << ", state " << n;
        ASSERT_GE(point.memory.equivalent, memory.equivalent) << "state " << n;
        if (point.memory.equivalent > memory.equivalent) {
            ++n_plastic;
            ASSERT_NEAR(mises(point.stress), Y, 1e-9 * Y) << "seed " << seed << ", state " << n;
        }
    }
    EXPECT_GT(n_plastic, n_states / 2);
    EXPECT_LT(n_plastic, n_states); // some stay elastic
}

TEST(PlaneStressUpdate, RefusesAStrainThatIsNotANumber) {
    const auto law = support::swift(K, eps0, n_exponent);
    for (int k = 0; k < 3; ++k) {
        SplitStrain strain(0.01, 0.01, 0.01);
        strain[k] = std::numeric_limits<double>::quiet_NaN();
        const PointUpdate point = update_point({E, nu}, *law, strain, {}, true);
        EXPECT_FALSE(point.has_converged) << k;
        EXPECT_EQ(point.memory.equivalent, 0) << k;
    }
}

TEST(PlaneStressUpdate, TangentIsTheDerivativeOfStress) {
    constexpr int n_states = 20000;
    constexpr double tolerance = 1e-6; // truncation (step over the strain of first yield) squared
    const auto law = support::swift(K, eps0, n_exponent);
    RandomStates random;
    int n_straddling = 0;
    double worst = 0;
    for (int n = 0; n < n_states; ++n) {
        const PointMemory memory = random.memory();
        const SplitStrain strain = random.strain();
        const auto at = [&](const SplitStrain& e) {
            return update_point({E, nu}, *law, e, memory, true);
        };
        const std::optional<double> error = tangent_error(at, strain, memory);
        if (!error) {
            ++n_straddling;
            continue;
        }
        worst = std::max(worst, *error);
    }
    RecordProperty("worst", std::to_string(worst));
    RecordProperty("straddling_states", n_straddling);
    EXPECT_LT(worst, tolerance) << "seed " << seed;
    EXPECT_LT(n_straddling, n_states / 100);
}

} // namespace
} // namespace flangewright::material
