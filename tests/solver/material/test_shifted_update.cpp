// Flow with back stresses in plane stress: closed forms of tension, compression and cycles, a
// finely stepped integration of the rate equations, and central differences.
#include "solver/material/shifted_update.hpp"
#include "tests/solver/material/tangent_check.hpp"
#include "tests/support/flow_law.hpp"
#include "tests/support/pulled_bar.hpp"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>
#include <utility>
#include <vector>

namespace flangewright::material {
namespace {

using support::Bar;
using support::components;
using support::split;

constexpr double E = 70000;
constexpr double nu = 0.33;
constexpr PlaneElasticity elasticity{E, nu};
constexpr unsigned seed = 1986;

support::Point point_of(std::shared_ptr<const HardeningLaw> size, std::vector<BackStress> shifts) {
    return {elasticity, std::move(size), std::move(shifts)};
}

// The return map stops at 1e-10 of the flow stress.
constexpr double closed_form_error = 1e-8;

double mises(const SplitStress& T) {
    const Eigen::Vector3d s = components(T);
    return std::sqrt(s[0] * s[0] - s[0] * s[1] + s[1] * s[1] + 3 * s[2] * s[2]);
}

std::shared_ptr<const HardeningLaw> steady(double flow) {
    return std::make_shared<support::PerfectFlow>(flow);
}

// One implicit step of tension to the plastic strain p: X = C p/(1 + gamma p), the back stress kept
// as the tensor (X, 0) whose deviator it is.
TEST(ShiftedUpdate, OneStepOfTensionIsTheImplicitRule) {
    const BackStress shift{9000, 150};
    for (const double p : {1e-5, 2e-3, 0.1}) {
        const double X = shift.stiffness * p / (1 + shift.recall * p);
        const double stress = 70 + 500 * p + X;
        support::Point point = point_of(std::make_shared<support::LinearFlow>(70, 500), {shift});
        const PointUpdate update = point.go(split(stress / E + p, -nu * stress / E - 0.5 * p, 0));
        const Eigen::Vector3d s = components(update.stress);
        EXPECT_NEAR(s[0], stress, closed_form_error * stress);
        EXPECT_NEAR(s[1], 0, closed_form_error * stress);
        EXPECT_NEAR(update.memory.equivalent, p, closed_form_error);
        EXPECT_NEAR(components(point.back_stresses()[0])[0], X, closed_form_error * stress);
        EXPECT_NEAR(components(point.back_stresses()[0])[1], 0, closed_form_error * stress);
        EXPECT_NEAR(update.thickness_strain, -nu * stress / E - 0.5 * p, closed_form_error);
    }
}

// lemaitre-chaboche-1990, section 5.4 (from memory): in tension X = C/gamma (1 - exp(-gamma p)),
// which ends at C/gamma. Backward Euler lags by the order of gamma p per step, halved steps halve
// it.
TEST(ShiftedUpdate, TensionFollowsTheExponentialAndSaturates) {
    const BackStress shift{9000, 150};
    const double p = 0.02;
    const double exact = 70 + 60 * (1 - std::exp(-150 * p));
    double error_before = 0;
    for (const int n_steps : {500, 1000}) {
        Bar bar(point_of(steady(70), {shift}));
        const double stress = bar.pull_slowly(exact / E + p, n_steps);
        const double error = std::abs(stress - exact);
        EXPECT_LT(error, 60 * 150 * p / n_steps);
        if (error_before > 0) {
            EXPECT_NEAR(error_before / error, 2, 0.05); // of first order
        }
        error_before = error;
    }
    Bar far(point_of(steady(70), {shift}));
    EXPECT_NEAR(far.pull_slowly(0.3, 200), 70 + 60, 1e-3);
}

// lemaitre-chaboche-1990, section 5.4.4 (from memory): the loop between plastic strains of plus and
// minus a settles at the stress amplitude Y + C/gamma tanh(gamma a).
TEST(ShiftedUpdate, CyclesSettleOnTheHyperbolicTangent) {
    constexpr double Y = 70;
    const BackStress shift{9000, 150};
    for (const double a : {0.002, 0.006, 0.02}) {
        const double amplitude = Y + 60 * std::tanh(150 * a);
        Bar bar(point_of(steady(Y), {shift}));
        double top = 0;
        double bottom = 0;
        const int n_steps = 1000;
        for (int cycle = 0; cycle < 6; ++cycle) {
            top = bar.pull_slowly(a + amplitude / E, n_steps);
            bottom = bar.pull_slowly(-a - amplitude / E, n_steps);
        }
        // First order: each step of 2 a/n loses about gamma times half of it of the back stress.
        const double lag = 60 * 150 * 2 * a / n_steps;
        EXPECT_NEAR(top, amplitude, lag) << a;
        EXPECT_NEAR(bottom, -amplitude, lag) << a;
        EXPECT_LT(lag, 0.01 * amplitude * (1 + 100 * a)) << "the band says nothing";
    }
}

// After tension to stress s with back stress X the reverse flow starts at X - Y, not at -s.
TEST(ShiftedUpdate, ReverseFlowStartsEarlyAsTheBackStressSays) {
    const auto size = std::make_shared<support::LinearFlow>(70, 300);
    Bar bar(point_of(size, {{9000, 150}, {2000, 20}}));
    const double stress = bar.pull_slowly(0.03, 300);
    const support::Point held = bar.point();
    const double X = components(held.back_stresses()[0] + held.back_stresses()[1])[0];
    const double p = held.flow().equivalent;
    const double Y = 70 + 300 * p;
    EXPECT_NEAR(stress, Y + X, 1e-6 * stress);
    ASSERT_GT(X, 40);
    const double turned = 0.03 - 2 * Y / E; // elastic down to X - Y
    EXPECT_NEAR(bar.pull_slowly(turned + 1e-9, 4), X - Y, 1e-3);
    EXPECT_EQ(bar.point().flow().equivalent, p);
    bar.pull_slowly(turned - 1e-6, 1);
    EXPECT_GT(bar.point().flow().equivalent, p);
}

// Prager's rule: without recall the back stress is 2/3 C times the plastic strain, on any path.
TEST(ShiftedUpdate, WithoutRecallTheBackStressIsProportionalToThePlasticStrain) {
    constexpr double C = 1200;
    support::Point point = point_of(support::swift(330, 0.0032, 0.22), {{C, 0}});
    for (const SplitStrain& strain :
         {split(0.02, 0, 0), split(0.02, 0.03, 0.01), split(-0.05, 0.03, 0.04), split(0, 0, 0)}) {
        point.go(strain);
        const PointMemory& flow = point.flow();
        // Kept as the plane stress of this deviator: sum 4 C, difference and shear 4/3 C.
        const SplitStress expected(
            4 * C * flow.plastic_mean,
            4.0 / 3 * C * flow.plastic_difference,
            4.0 / 3 * C * flow.plastic_shear
        );
        EXPECT_LT((point.back_stresses()[0] - expected).norm(), 1e-12 * C);
    }
    EXPECT_GT(point.flow().equivalent, 0.1);
}

// A linear back stress and the same isotropic slope are one until the strain turns.
TEST(ShiftedUpdate, LinearShiftIsIsotropicSlopeUntilReversal) {
    const auto grows = std::make_shared<support::LinearFlow>(70, 800);
    Bar shifted(point_of(steady(70), {{800, 0}}));
    Bar grown(point_of(grows, {}));
    EXPECT_NEAR(shifted.pull_slowly(0.04, 50), grown.pull_slowly(0.04, 50), 1e-6);
    const double apart = shifted.pull_slowly(0.03, 50) - grown.pull_slowly(0.03, 50);
    EXPECT_NEAR(apart, 2 * 800 * 0.04, 800 * 0.01); // by twice the back stress, less what follows
}

TEST(ShiftedUpdate, WithoutBackStressIsTheIsotropicUpdate) {
    constexpr double rounding = 1e-9; // both stop at 1e-10 of the flow stress
    const auto law = support::swift(330, 0.0032, 0.22);
    for (const std::vector<BackStress>& shifts :
         {std::vector<BackStress>{}, std::vector<BackStress>{{1e-9, 10}}}) {
        support::Point point = point_of(law, shifts);
        PointMemory memory;
        for (const SplitStrain& strain :
             {split(0.001, 0, 0), split(0.02, 0.03, 0.01), split(-0.05, 0.03, 0.04)}) {
            const PointUpdate expected = update_point(elasticity, *law, strain, memory, true);
            const PointUpdate update = point.go(strain);
            EXPECT_LT((update.stress - expected.stress).norm(), rounding * 100);
            EXPECT_LT((update.tangent - expected.tangent).norm(), 1e-7 * E);
            EXPECT_NEAR(update.memory.equivalent, expected.memory.equivalent, 1e-12);
            EXPECT_NEAR(update.thickness_strain, expected.thickness_strain, 1e-12);
            memory = expected.memory;
        }
    }
}

// Rate equations with full deviators, components 11, 22, 12 (33 follows): the flow is normal to
// mises(stress deviator - X), each dX = 2/3 C d(plastic strain) - gamma X d(plastic length).
struct Rates {
    Eigen::Vector3d stress = Eigen::Vector3d::Zero();
    std::vector<Eigen::Vector3d> deviators;
    double plastic = 0;
};

constexpr double K = 250;
constexpr double eps0 = 0.003;
constexpr double n_exponent = 0.15;
const std::vector<BackStress> two{{15000, 300}, {1500, 12}};

double double_dot(const Eigen::Vector3d& a, const Eigen::Vector3d& b) {
    return a[0] * b[0] + a[1] * b[1] + (a[0] + a[1]) * (b[0] + b[1]) + 2 * a[2] * b[2];
}

Eigen::Matrix3d hooke() {
    Eigen::Matrix3d C;
    C << 1, nu, 0, nu, 1, 0, 0, 0, 0.5 * (1 - nu);
    return C * (E / (1 - nu * nu));
}

Rates rates(const Rates& at, const Eigen::Vector3d& strain_rate) {
    const double mean = (at.stress[0] + at.stress[1]) / 3;
    Eigen::Vector3d relative(at.stress[0] - mean, at.stress[1] - mean, at.stress[2]);
    for (const Eigen::Vector3d& X : at.deviators) {
        relative -= X;
    }
    // Plastic strain per plastic length: tensor components, and with engineering shear.
    const Eigen::Vector3d n = 1.5 * relative / std::sqrt(1.5 * double_dot(relative, relative));
    const Eigen::Vector3d flow(n[0], n[1], 2 * n[2]);
    const double strain = eps0 + at.plastic;
    double hardening = n_exponent * K * std::pow(strain, n_exponent - 1);
    for (std::size_t i = 0; i < two.size(); ++i) {
        hardening += two[i].stiffness - two[i].recall * double_dot(n, at.deviators[i]);
    }
    // Without stress through the thickness n : d(stress) is flow . d(stress) too.
    const double multiplier =
        flow.dot(hooke() * strain_rate) / (flow.dot(hooke() * flow) + hardening);
    Rates rate;
    rate.plastic = multiplier;
    rate.stress = hooke() * (strain_rate - multiplier * flow);
    for (std::size_t i = 0; i < two.size(); ++i) {
        rate.deviators.push_back(
            multiplier * (2.0 / 3 * two[i].stiffness * n - two[i].recall * at.deviators[i])
        );
    }
    EXPECT_GT(multiplier, 0) << "the path must flow all along";
    return rate;
}

Rates moved(const Rates& at, double factor, const Rates& rate) {
    Rates to = at;
    to.stress += factor * rate.stress;
    to.plastic += factor * rate.plastic;
    for (std::size_t i = 0; i < to.deviators.size(); ++i) {
        to.deviators[i] += factor * rate.deviators[i];
    }
    return to;
}

// Fourth-order Runge-Kutta along a straight piece of the strain path.
void integrate(Rates& at, const Eigen::Vector3d& piece, int n_steps) {
    const Eigen::Vector3d step = piece / n_steps;
    for (int i = 0; i < n_steps; ++i) {
        const Rates k1 = rates(at, step);
        const Rates k2 = rates(moved(at, 0.5, k1), step);
        const Rates k3 = rates(moved(at, 0.5, k2), step);
        const Rates k4 = rates(moved(at, 1, k3), step);
        at = moved(at, 1.0 / 6, k1);
        at = moved(at, 1.0 / 3, k2);
        at = moved(at, 1.0 / 3, k3);
        at = moved(at, 1.0 / 6, k4);
    }
}

// Out of the elastic range by a stretch, then on with another mix of stretch and shear, so that
// flow and back stress part.
TEST(ShiftedUpdate, InManySmallStepsFollowsTheRateEquations) {
    constexpr int n_steps = 10000;
    // Backward Euler is of first order: halving the step halves what is left.
    constexpr double first_order_error = 2e-4;
    const auto size = support::swift(K, eps0, n_exponent);
    const Eigen::Vector3d stretch(0.02, 0.005, 0); // e11, e22, 2 e12
    for (const Eigen::Vector3d& turned :
         {Eigen::Vector3d(0.01, 0.03, 0), Eigen::Vector3d(0.01, -0.005, 0.04)}) {
        const double first = size->at(0).stress
            / mises(SplitStress(
                elasticity.mean_stiffness() * 0.5 * (stretch[0] + stretch[1]),
                elasticity.shear_stiffness() * 0.5 * (stretch[0] - stretch[1]),
                0
            ));
        Rates exact;
        exact.stress = first * hooke() * stretch;
        exact.deviators = {Eigen::Vector3d::Zero(), Eigen::Vector3d::Zero()};
        integrate(exact, (1 - first) * stretch, n_steps);
        integrate(exact, turned, n_steps);

        support::Point point = point_of(size, two);
        PointUpdate update;
        for (int i = 1; i <= 2 * n_steps; ++i) {
            const double along = std::min(1.0, static_cast<double>(i) / n_steps);
            const double beyond = std::max(0.0, static_cast<double>(i) / n_steps - 1);
            const Eigen::Vector3d e = along * stretch + beyond * turned;
            update = point.go(split(e[0], e[1], 0.5 * e[2]));
        }
        EXPECT_LT(
            (components(update.stress) - exact.stress).norm(),
            first_order_error * exact.stress.norm()
        );
        EXPECT_NEAR(update.memory.equivalent, exact.plastic, first_order_error * exact.plastic);
        for (std::size_t i = 0; i < two.size(); ++i) {
            const Eigen::Vector3d plane = components(point.back_stresses()[i]);
            const double mean = (plane[0] + plane[1]) / 3;
            const Eigen::Vector3d X(plane[0] - mean, plane[1] - mean, plane[2]);
            EXPECT_LT(
                (X - exact.deviators[i]).norm(), 10 * first_order_error * exact.deviators[i].norm()
            );
        }
    }
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
        return {plastic[0], plastic[1], plastic[2], 0.1 * std::abs(number(generator))};
    }
    // Anything up to the value at which it saturates.
    std::vector<SplitStress> back_stresses(const std::vector<BackStress>& shifts) {
        std::vector<SplitStress> all;
        for (const BackStress& shift : shifts) {
            SplitStress back(number(generator), number(generator), number(generator));
            back *= std::abs(number(generator)) * shift.stiffness
                / ((shift.recall > 0 ? shift.recall : 10) * mises(back));
            all.push_back(back);
        }
        return all;
    }
};

const std::vector<std::vector<BackStress>> many_shifts{
    {{9000, 150}},
    {{15000, 300}, {1500, 12}},
    {{60000, 1500}, {6000, 90}, {400, 0}},
    {{500000, 100000}, {1, 1e-3}},
};

TEST(ShiftedUpdate, NeverLeavesTheShiftedYieldSurface) {
    constexpr int n_states = 100000;
    const std::vector<std::shared_ptr<const HardeningLaw>> laws{
        support::swift(330, 0.0032, 0.22),
        std::make_shared<support::PerfectFlow>(72),
        std::make_shared<support::LinearFlow>(150, 700),
    };
    RandomStates random;
    int n_plastic = 0;
    for (int n = 0; n < n_states; ++n) {
        const auto at = static_cast<std::size_t>(n);
        const HardeningLaw& law = *laws[at % laws.size()];
        const std::vector<BackStress>& shifts = many_shifts[at / 3 % many_shifts.size()];
        const PointMemory memory = random.memory();
        const std::vector<SplitStress> back = random.back_stresses(shifts);
        const ShiftedUpdate update =
            update_point(elasticity, {law, shifts}, random.strain(), {memory, back}, true);
        const PointUpdate& point = update.point;
        ASSERT_TRUE(point.has_converged) << "seed " << seed << ", state " << n;
        ASSERT_TRUE(point.stress.allFinite() && point.tangent.allFinite()) << "state " << n;
        SplitStress relative = point.stress;
        for (std::size_t i = 0; i < shifts.size(); ++i) {
            relative -= update.back_stresses[i];
            if (shifts[i].recall > 0) {
                ASSERT_LE(
                    mises(update.back_stresses[i]),
                    shifts[i].stiffness / shifts[i].recall * (1 + 1e-9)
                ) << "state "
                  << n;
            }
        }
        const double Y = law.at(point.memory.equivalent).stress;
        ASSERT_LE(mises(relative), Y * (1 + 1e-9)) << "seed " << seed << ", state " << n;
        ASSERT_GE(point.memory.equivalent, memory.equivalent) << "state " << n;
        if (point.memory.equivalent > memory.equivalent) {
            ++n_plastic;
            ASSERT_NEAR(mises(relative), Y, 1e-9 * Y) << "seed " << seed << ", state " << n;
        }
    }
    EXPECT_GT(n_plastic, n_states / 2);
    EXPECT_LT(n_plastic, n_states); // some stay elastic
}

TEST(ShiftedUpdate, RefusesAStrainThatIsNotANumber) {
    const auto law = support::swift(330, 0.0032, 0.22);
    for (int k = 0; k < 3; ++k) {
        SplitStrain strain(0.01, 0.01, 0.01);
        strain[k] = std::numeric_limits<double>::quiet_NaN();
        const ShiftedUpdate update = point_of(law, {{9000, 150}}).look(strain);
        EXPECT_FALSE(update.point.has_converged) << k;
        EXPECT_EQ(update.point.memory.equivalent, 0) << k;
        EXPECT_EQ(update.back_stresses[0], SplitStress::Zero()) << k;
    }
}

TEST(ShiftedUpdate, TangentIsTheDerivativeOfStress) {
    constexpr int n_states = 20000;
    constexpr double tolerance = 1e-6; // truncation (step over the strain of first yield) squared
    const auto law = support::swift(330, 0.0032, 0.22);
    RandomStates random;
    int n_straddling = 0;
    double worst = 0;
    double most_unsymmetric = 0;
    for (int n = 0; n < n_states; ++n) {
        const std::vector<BackStress>& shifts = many_shifts[static_cast<std::size_t>(n) % 3];
        const PointMemory memory = random.memory();
        const std::vector<SplitStress> back = random.back_stresses(shifts);
        const SplitStrain strain = random.strain();
        const auto at = [&](const SplitStrain& e) {
            return update_point(elasticity, {*law, shifts}, e, {memory, back}, true).point;
        };
        const std::optional<double> error = tangent_error(at, strain, memory);
        if (!error) {
            ++n_straddling;
            continue;
        }
        worst = std::max(worst, *error);
        const PointUpdate here = at(strain);
        most_unsymmetric = std::max(
            most_unsymmetric, (here.tangent - here.tangent.transpose()).norm() / here.tangent.norm()
        );
    }
    RecordProperty("worst", std::to_string(worst));
    RecordProperty("most_unsymmetric", std::to_string(most_unsymmetric));
    RecordProperty("straddling_states", n_straddling);
    EXPECT_LT(worst, tolerance) << "seed " << seed;
    EXPECT_LT(n_straddling, n_states / 100);
}

// Without recall there is an energy of the increment, so the tangent is symmetric; recall breaks
// it.
TEST(ShiftedUpdate, TangentIsSymmetricUnlessRecallTurnsAgainstTheFlow) {
    const auto law = support::swift(330, 0.0032, 0.22);
    const SplitStress back = split(30, -10, 25);
    const auto unsymmetry = [&](double recall) {
        const std::vector<BackStress> shifts{{9000, recall}};
        const Eigen::Matrix3d D =
            update_point(
                elasticity, {*law, shifts}, split(0.01, 0.004, -0.01), {{}, {&back, 1}}, true
            )
                .point.tangent;
        return (D - D.transpose()).norm() / D.norm();
    };
    EXPECT_LT(unsymmetry(0), 1e-14);
    EXPECT_GT(unsymmetry(150), 1e-3);
}

} // namespace
} // namespace flangewright::material
