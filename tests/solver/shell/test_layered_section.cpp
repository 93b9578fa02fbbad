// The layered section against the integrals over the thickness that it stands for.
#include "solver/shell/layered_section.hpp"
#include "tests/support/flow_law.hpp"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
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

// An elastic section is integrated with few layers. One layer that has flowed next to nothing makes
// it take all of them.
TEST(LayeredSection, IsTheSameWithFewLayersWhereItIsElastic) {
    const double t = 1.1;
    const Section section = section_of(support::swift(330, 0.0032, 0.22), t, 12);
    SectionStrain strain = cylinder(0.0012 / t);
    strain.membrane << 2e-4, -1e-4, 3e-4;
    strain.quadratic << 1e-4, 5e-5, -2e-5;
    const SectionForce few = force_of(section, strain);
    std::vector<material::PointMemory> touched(12);
    touched[0].equivalent = 1e-300;
    const SectionForce all = integrate_section(section, strain, {}, touched, true);
    constexpr double higher_powers = 1e-6; // of z: some strain squared, not integrated exactly
    EXPECT_LT((few.resultant - all.resultant).norm(), higher_powers * all.resultant.norm());
    EXPECT_LT((few.tangent - all.tangent).norm(), higher_powers * all.tangent.norm());
    EXPECT_NE(few.resultant, all.resultant); // two ways of adding up
}

TEST(LayeredSection, TakesAllLayersAsSoonAsAnyWouldFlow) {
    const double t = 1.1;
    const Section section = section_of(support::swift(330, 0.0032, 0.22), t, 12);
    for (const double share : {0.97, 1.05, 3.0}) { // of the curvature at first yield
        const double yield = section.hardening->at(0).stress;
        // Plane strain: stress E/(1 - nu^2), Mises by nu.
        const double mises = std::sqrt(1 - nu + nu * nu) * E / (1 - nu * nu);
        const SectionStrain strain = cylinder(share * yield / mises / (0.5 * t));
        std::vector<material::PointMemory> touched(12);
        touched[0].equivalent = 1e-300;
        const SectionForce all = integrate_section(section, strain, {}, touched, true);
        EXPECT_EQ(force_of(section, strain).resultant, all.resultant) << share;
    }
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

using Strains = Eigen::Matrix<double, 9, 1>;

// Largest distance of a tangent column from central differences, over the tangent.
double tangent_error(const std::function<SectionForce(const Strains&)>& answer, const Strains& at) {
    constexpr double h = 1e-8;
    const SectionForce here = answer(at);
    EXPECT_TRUE(here.has_converged);
    double worst = 0;
    for (int i = 0; i < 9; ++i) {
        const Strains step = h * Strains::Unit(i);
        const Strains slope = (answer(at + step).resultant - answer(at - step).resultant) / (2 * h);
        worst = std::max(worst, (slope - here.tangent.col(i)).norm() / here.tangent.norm());
    }
    return worst;
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
        worst = std::max(worst, tangent_error(answer, at));
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

const std::vector<material::BackStress> two_shifts{{9000, 150}, {1500, 12}};

Section shifted_section(std::shared_ptr<const material::HardeningLaw> law, double nu_of, int n) {
    return {{E, nu_of}, std::move(law), 1, gauss_layers(n), two_shifts};
}

// Layers that carry plastic strain and back stresses.
struct Layers {
    std::vector<material::PointMemory> memory;
    std::vector<material::SplitStress> back_stresses;
    FibreStretch fibre;

    explicit Layers(const Section& section)
        : memory(section.layers.position.size()),
          back_stresses(
              memory.size() * section.back_stresses.size(), material::SplitStress::Zero()
          ) {}
    [[nodiscard]] SectionForce force(const Section& section, const SectionStrain& strain) const {
        return integrate_section(section, strain, fibre, memory, true, back_stresses);
    }
};

TEST(LayeredSection, TangentIsTheDerivativeOfTheResultantsWithBackStresses) {
    const Section section = shifted_section(support::swift(250, 0.003, 0.15), nu, 8);
    Layers layers(section);
    SectionStrain before;
    before.membrane << 0.01, 0.004, 0.003;
    before.bending << 0.05, 0.04, -0.02;
    ASSERT_TRUE(remember_section(section, before, layers.fibre, layers.memory, layers.back_stresses)
    );
    std::mt19937 generator(seed);
    std::uniform_real_distribution<double> number(-1, 1);
    double worst = 0;
    for (int n = 0; n < 100; ++n) {
        Eigen::Matrix<double, 9, 1> at;
        for (int i = 0; i < 9; ++i) {
            at[i] = number(generator) * (i < 3 ? 0.02 : 0.04);
        }
        const auto answer = [&](const Eigen::Matrix<double, 9, 1>& e) {
            return layers.force(section, {e.head<3>(), e.segment<3>(3), e.tail<3>()});
        };
        worst = std::max(worst, tangent_error(answer, at));
    }
    RecordProperty("worst", std::to_string(worst));
    EXPECT_LT(worst, 1e-6) << "seed " << seed;
}

TEST(LayeredSection, LeavesTheBackStressesAloneWhenAPointTurnsInsideOut) {
    const Section section = shifted_section(support::swift(250, 0.003, 0.15), nu, 4);
    Layers layers(section);
    SectionStrain crushed;
    crushed.bending << -4, 0, 0; // inside out at the outer layers only
    EXPECT_FALSE(
        remember_section(section, crushed, layers.fibre, layers.memory, layers.back_stresses)
    );
    for (const material::SplitStress& back : layers.back_stresses) {
        EXPECT_EQ(back, material::SplitStress::Zero());
    }
}

// One fibre along its own line: stress on strain, the flow stress of constant size Y shifted by the
// exact solution of dX = C de_p - gamma X dp. Written with strains and stresses of tension.
class Fibre {
public:
    Fibre(double size, std::vector<material::BackStress> shifts)
        : size_(size), shifts_(std::move(shifts)), X_(shifts_.size(), 0) {}

    // Stress after moving on to a strain straight.
    double stretch(double strain) {
        const double trial = E * (strain - plastic_);
        double X = 0;
        for (const double each : X_) {
            X += each;
        }
        if (std::abs(trial - X) <= size_) {
            return trial;
        }
        const double way = trial > X ? 1 : -1;
        // Plastic strain by bisection: stress E (strain - plastic) falls, way Y + X rises.
        double low = 0;
        double high = std::abs(trial - X) / E;
        for (int i = 0; i < 60; ++i) {
            const double middle = 0.5 * (low + high);
            const bool flows_more =
                way * E * (strain - plastic_ - way * middle) > size_ + way * shifted(way, middle);
            (flows_more ? low : high) = middle;
        }
        for (std::size_t i = 0; i < X_.size(); ++i) {
            X_[i] = exact(i, way, low);
        }
        plastic_ += way * low;
        return E * (strain - plastic_);
    }

private:
    [[nodiscard]] double exact(std::size_t i, double way, double p) const {
        const double end = way * shifts_[i].stiffness / shifts_[i].recall;
        return end + (X_[i] - end) * std::exp(-shifts_[i].recall * p);
    }
    [[nodiscard]] double shifted(double way, double p) const {
        double sum = 0;
        for (std::size_t i = 0; i < X_.size(); ++i) {
            sum += exact(i, way, p);
        }
        return sum;
    }

    double size_;
    std::vector<material::BackStress> shifts_;
    std::vector<double> X_;
    double plastic_ = 0;
};

// Strip without strain along its width, nu = 1/2: then stress is proportional all the way, stress
// along is 2/sqrt3 of the equivalent, strain along sqrt3/2 of it, and a fibre is one-dimensional.
struct BendingFigures {
    double bent = 0; ///< moment at the curvature bent to, N
    double unbent = 0; ///< moment when pressed flat again
    double left = 0; ///< curvature left when let go of then, 1/mm
};

// Moves the fibres on to a curvature; returns their moment.
double bend_fibres(std::vector<Fibre>& fibres, double curvature) {
    const double to_equivalent = 2 / std::sqrt(3.0);
    const LayerRule layers = gauss_layers(static_cast<int>(fibres.size()));
    double moment = 0;
    for (std::size_t k = 0; k < fibres.size(); ++k) {
        const double z = layers.position[k];
        const double squared_stretch = 1 + 2 * curvature * z;
        const double stress =
            to_equivalent * fibres[k].stretch(to_equivalent * 0.5 * std::log(squared_stretch));
        // Second Piola-Kirchhoff stress over the reference.
        moment += layers.weight[k] * z * stress / squared_stretch;
    }
    return moment;
}

BendingFigures by_fibres(double size, double curvature) {
    std::vector<Fibre> fibres(64, Fibre(size, two_shifts));
    BendingFigures figures;
    figures.bent = bend_fibres(fibres, curvature);
    figures.unbent = bend_fibres(fibres, 0);
    // Let go: the moment grows with the curvature, from below zero.
    double low = 0;
    double high = curvature;
    for (int i = 0; i < 60; ++i) {
        std::vector<Fibre> released = fibres;
        const double middle = 0.5 * (low + high);
        (bend_fibres(released, middle) < 0 ? low : high) = middle;
    }
    figures.left = low;
    return figures;
}

BendingFigures by_section(double size, double curvature, int n_steps) {
    Section section = shifted_section(std::make_shared<support::PerfectFlow>(size), 0.5, 64);
    Layers layers(section);
    BendingFigures figures;
    for (int i = 1; i <= 2 * n_steps; ++i) {
        const double share = (i <= n_steps ? i : 2.0 * n_steps - i) / n_steps;
        const SectionStrain strain = cylinder(share * curvature);
        const double moment = moment_along(layers.force(section, strain));
        FibreStretch not_followed; // heights stay those of the flat strip, as in the fibres
        EXPECT_TRUE(
            remember_section(section, strain, not_followed, layers.memory, layers.back_stresses)
        );
        (i <= n_steps ? figures.bent : figures.unbent) = moment;
    }
    // Let go: the moment fades. Iterated with the elastic stiffness, since the tangent where the
    // strip begins to unload may still be that of flow.
    const double stiffness = E / (12 * (1 - 0.25));
    for (int step = 1; step <= n_steps / 10; ++step) {
        const double held = figures.unbent * (1 - 10.0 * step / n_steps);
        for (int i = 0; i < 50; ++i) {
            const double moment = moment_along(layers.force(section, cylinder(figures.left)));
            figures.left -= (moment - held) / stiffness;
        }
        FibreStretch not_followed;
        EXPECT_TRUE(remember_section(
            section, cylinder(figures.left), not_followed, layers.memory, layers.back_stresses
        ));
    }
    return figures;
}

// Bending, unbending and springback of a strip against the same by single fibres with the exact
// solution of the rule. What is left is the first order of backward Euler: halved steps halve it.
TEST(LayeredSection, BendsUnbendsAndSpringsBackAsItsFibresDo) {
    constexpr double size = 70;
    const double curvature = 0.12; // of 1 mm: outer fibres go to 6 %
    const BendingFigures fibres = by_fibres(size, curvature);
    const BendingFigures coarse = by_section(size, curvature, 200);
    const BendingFigures fine = by_section(size, curvature, 400);
    const auto expect_closes = [](double at_coarse, double at_fine, double exact) {
        constexpr double first_order_band = 0.005;
        EXPECT_NEAR(at_fine / exact, 1, first_order_band);
        EXPECT_NEAR(2 * at_fine - at_coarse, exact, 2e-4 * std::abs(exact)); // extrapolated
    };
    expect_closes(coarse.bent, fine.bent, fibres.bent);
    expect_closes(coarse.unbent, fine.unbent, fibres.unbent);
    expect_closes(coarse.left, fine.left, fibres.left);
    EXPECT_LT(fibres.unbent, 0);
    // Letting go makes fibres flow forward again already, which elastic unloading would miss.
    EXPECT_GT(fibres.left, -1.1 * 12 * fibres.unbent * (1 - 0.25) / E);
    // The opposite claim: without shift, of the same tensile curve, it presses back harder.
    const auto curve =
        material::steady_flow(std::make_shared<support::PerfectFlow>(size), two_shifts);
    Section isotropic{{E, 0.5}, curve, 1, gauss_layers(64)};
    std::vector<material::PointMemory> memory(64);
    double moment = 0;
    for (int i = 1; i <= 800; ++i) {
        const SectionStrain strain = cylinder((i <= 400 ? i : 800 - i) / 400.0 * curvature);
        moment = moment_along(integrate_section(isotropic, strain, {}, memory, false));
        FibreStretch not_followed;
        ASSERT_TRUE(remember_section(isotropic, strain, not_followed, memory));
        if (i == 400) {
            EXPECT_NEAR(moment / fibres.bent, 1, 0.005); // the same on the way there
        }
    }
    EXPECT_LT(moment, 1.3 * fibres.unbent);
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
