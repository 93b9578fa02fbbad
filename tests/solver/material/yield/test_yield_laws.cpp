// What every yield law must do, run over the folder's examples and over the published sets.
#include "tests/support/yield_sets.hpp"

#include <Eigen/Eigenvalues>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace flangewright::material {
namespace {

constexpr unsigned seed = 48;
constexpr int n_states = 2000;
constexpr double rounding = 1e-12;

class EveryYieldLaw : public testing::TestWithParam<support::YieldSet> {
protected:
    [[nodiscard]] const YieldLaw& law() const { return *GetParam().law; }

    RollingStress random_stress() {
        const double size = std::pow(10.0, 3 * number_(generator_));
        return size * RollingStress(number_(generator_), number_(generator_), number_(generator_));
    }

private:
    std::mt19937 generator_{seed};
    std::uniform_real_distribution<double> number_{-1, 1};
};

std::vector<support::YieldSet> all_laws() {
    std::vector<support::YieldSet> laws = support::yield_sets();
    for (const YieldEntry& entry : yield_laws()) {
        laws.push_back({entry.name, entry.make(entry.example)});
    }
    laws.push_back({"fractional", support::yld2000(6.5, {1, 0.9, 1.1, 1, 1, 1, 1.05, 0.95})});
    laws.push_back({"steep", support::yld2000(20, {1, 0.9, 1.1, 1, 1, 1, 1.05, 0.95})});
    return laws;
}

TEST_P(EveryYieldLaw, IsHomogeneousOfDegreeOne) {
    for (int n = 0; n < n_states; ++n) {
        const RollingStress s = random_stress();
        const YieldPoint point = law().at(s);
        EXPECT_NEAR(point.gradient.dot(s), point.stress, rounding * point.stress);
        EXPECT_NEAR(law().stress(s), point.stress, rounding * point.stress);
        EXPECT_LT((point.curvature * s).norm(), 1e-10 * point.curvature.norm() * s.norm());
        const YieldPoint tripled = law().at(-3 * s);
        EXPECT_NEAR(tripled.stress, 3 * point.stress, rounding * point.stress);
        EXPECT_LT((tripled.gradient + point.gradient).norm(), rounding);
    }
}

// Central differences over a step h of the stress's size: truncation h^2 times a third derivative,
// which grows with the square of the exponent, rounding 1e-16/h.
TEST_P(EveryYieldLaw, HasTheDerivativesThatItsStressHas) {
    double worst_slope = 0;
    double worst_curvature = 0;
    for (int n = 0; n < n_states; ++n) {
        const RollingStress s = random_stress();
        const double h = 1e-5 * s.norm();
        const YieldPoint point = law().at(s);
        Eigen::Vector3d slope;
        Eigen::Matrix3d curvature;
        for (int i = 0; i < 3; ++i) {
            const RollingStress up = s + h * RollingStress::Unit(i);
            const RollingStress down = s - h * RollingStress::Unit(i);
            slope[i] = (law().stress(up) - law().stress(down)) / (2 * h);
            curvature.col(i) = (law().at(up).gradient - law().at(down).gradient) / (2 * h);
        }
        worst_slope = std::max(worst_slope, (slope - point.gradient).norm());
        worst_curvature =
            std::max(worst_curvature, (curvature - point.curvature).norm() * s.norm());
        const Eigen::Matrix3d skew = point.curvature - point.curvature.transpose();
        EXPECT_LT(skew.norm(), rounding * point.curvature.norm());
    }
    RecordProperty("slope", std::to_string(worst_slope));
    RecordProperty("curvature", std::to_string(worst_curvature));
    EXPECT_LT(worst_slope, 1e-7) << "seed " << seed;
    EXPECT_LT(worst_curvature, 1e-5) << "seed " << seed;
}

TEST_P(EveryYieldLaw, IsConvex) {
    for (int n = 0; n < n_states; ++n) {
        const RollingStress a = random_stress();
        const RollingStress b = random_stress();
        const double chord = 0.5 * (law().stress(a) + law().stress(b));
        EXPECT_LE(law().stress(0.5 * (a + b)), chord * (1 + rounding)) << "state " << n;
        const Eigen::Matrix3d curvature = law().at(a).curvature;
        const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> values(
            curvature, Eigen::EigenvaluesOnly
        );
        EXPECT_GE(values.eigenvalues()[0], -rounding * curvature.norm()) << "state " << n;
    }
}

// Where principal values meet, directions of them have no meaning, and where there is no stress
// nothing flows; nothing may divide by zero.
TEST_P(EveryYieldLaw, IsFiniteWherePrincipalValuesMeet) {
    for (const RollingStress& s :
         {RollingStress(1, 1, 0),
          RollingStress(-200, -200, 0),
          RollingStress(1, -1, 0),
          RollingStress(0, 0, 1),
          RollingStress(1, 1, 1e-12),
          RollingStress(1, 1 + 1e-9, 1e-200),
          RollingStress(1e-100, 0, 0)}) {
        const YieldPoint point = law().at(s);
        EXPECT_GT(point.stress, 0) << s;
        EXPECT_TRUE(point.gradient.allFinite()) << s;
        EXPECT_TRUE(point.curvature.allFinite()) << s;
        EXPECT_NEAR(point.gradient.dot(s), point.stress, rounding * point.stress) << s;
    }
    const YieldPoint none = law().at(RollingStress::Zero());
    EXPECT_EQ(none.stress, 0);
    EXPECT_EQ(none.gradient, Eigen::Vector3d::Zero());
    EXPECT_EQ(none.curvature, Eigen::Matrix3d::Zero());
}

INSTANTIATE_TEST_SUITE_P(Sets, EveryYieldLaw, testing::ValuesIn(all_laws()), [](const auto& set) {
    std::string name = set.param.name;
    std::erase(name, '-');
    return name;
});

TEST(YieldLaws, HaveExamplesInTheirOwnRanges) {
    for (const YieldEntry& entry : yield_laws()) {
        EXPECT_FALSE(entry.meaning.empty()) << entry.name;
        EXPECT_FALSE(entry.example_source.empty()) << entry.name;
        EXPECT_EQ(entry.parameters.size(), entry.example.size()) << entry.name;
        for (const LawParameter& parameter : entry.parameters) {
            EXPECT_FALSE(parameter.meaning.empty()) << parameter.name;
            EXPECT_THAT(
                entry.example.at(parameter.name),
                testing::Each(
                    testing::AllOf(testing::Ge(parameter.lowest), testing::Le(parameter.highest))
                )
            ) << parameter.name;
        }
        EXPECT_TRUE(entry.objection == nullptr || !entry.objection(entry.example)) << entry.name;
    }
}

TEST(YieldLaws, StandForTheFolder) {
    std::vector<std::string> names;
    for (const YieldEntry& entry : yield_laws()) {
        names.push_back(entry.name);
    }
    EXPECT_THAT(names, testing::UnorderedElementsAre("von_mises", "hill48", "yld2000"));
}

} // namespace
} // namespace flangewright::material
