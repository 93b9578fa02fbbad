// Source: e = 1/2 ln C (Miehe, Apel and Lambrecht 2002); the value is checked against Eigen's
// matrix logarithm, the derivatives against central differences.
#include "solver/material/log_strain.hpp"

#include <Eigen/Dense>
#include <gtest/gtest.h>
#include <unsupported/Eigen/MatrixFunctions>

#include <limits>
#include <random>

namespace flangewright::material {
namespace {

constexpr int n_states = 3000;
constexpr unsigned seed = 20240;

// Rounding of the closed form and of the matrix logarithm.
constexpr double rounding = 1e-12;
// Step of central differences over the smaller principal value of C, on whose scale the logarithm
// bends: truncation about 1e-9, rounding about 1e-10.
constexpr double difference = 1e-5;
constexpr double difference_error = 1e-7;

SplitStrain split(const Eigen::Matrix2d& tensor) {
    return {0.5 * (tensor(0, 0) + tensor(1, 1)), 0.5 * (tensor(0, 0) - tensor(1, 1)), tensor(0, 1)};
}

// C of a random deformation, from nearly none (equal stretches) to a few times the length.
class RandomStretch {
public:
    Eigen::Matrix2d next() {
        const double size = std::pow(10.0, -4 + 4 * std::abs(number_(generator_)));
        Eigen::Matrix2d F;
        do {
            F << 1 + size * number_(generator_), size * number_(generator_),
                size * number_(generator_), 1 + size * number_(generator_);
        } while (F.determinant() < 0.1);
        return F.transpose() * F;
    }
    Eigen::Vector3d stress() {
        return 100 * Eigen::Vector3d(number_(generator_), number_(generator_), number_(generator_));
    }

private:
    std::mt19937 generator_{seed};
    std::uniform_real_distribution<double> number_{-1, 1};
};

double step_for(const SplitStrain& C) {
    return difference * (C[0] - C.tail<2>().norm());
}

SplitStrain moved(SplitStrain C, int i, double by) {
    C[i] += by;
    return C;
}

TEST(LogStrain, IsHalfTheMatrixLogarithmOfC) {
    RandomStretch random;
    for (int n = 0; n < n_states; ++n) {
        const Eigen::Matrix2d C = random.next();
        const Eigen::Matrix2d logarithm = C.log();
        const SplitStrain expected = 0.5 * split(logarithm);
        const LogStrain strain(split(C));
        ASSERT_TRUE(strain.is_valid());
        ASSERT_LT((strain.value() - expected).norm(), rounding * (1 + expected.norm()))
            << "seed " << seed << ", state " << n << ", C\n"
            << C;
    }
}

TEST(LogStrain, OfAStretchIsTheLogarithmOfTheStretch) {
    const LogStrain strain(SplitStrain(0.5 * (1.44 + 0.81), 0.5 * (1.44 - 0.81), 0));
    EXPECT_NEAR(strain.value()[0] + strain.value()[1], std::log(1.2), rounding);
    EXPECT_NEAR(strain.value()[0] - strain.value()[1], std::log(0.9), rounding);
}

TEST(LogStrain, IsRefusedWhenTheSheetIsTurnedInsideOut) {
    EXPECT_FALSE(LogStrain(SplitStrain(1, 1.1, 0)).is_valid());
    EXPECT_FALSE(LogStrain(SplitStrain(-1, 0, 0)).is_valid());
    EXPECT_FALSE(LogStrain(SplitStrain(1, 0.6, 0.8)).is_valid());
    EXPECT_TRUE(LogStrain(SplitStrain(1, 0.6, 0.79)).is_valid());
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_FALSE(LogStrain(SplitStrain(nan, 0, 0)).is_valid());
    EXPECT_FALSE(LogStrain(SplitStrain(1, nan, 0)).is_valid());
}

TEST(LogStrain, StressDoesTheSameWorkAsTheLogStress) {
    RandomStretch random;
    double worst = 0;
    for (int n = 0; n < n_states; ++n) {
        const SplitStrain C = split(random.next());
        const SplitStress T = random.stress();
        const Eigen::Vector3d S = LogStrain(C).stress(T);
        for (int i = 0; i < 3; ++i) {
            const double h = step_for(C);
            const double slope = (LogStrain(moved(C, i, h)).value().dot(T)
                                  - LogStrain(moved(C, i, -h)).value().dot(T))
                / (2 * h);
            worst = std::max(worst, std::abs(slope - S[i]) / S.norm());
        }
    }
    RecordProperty("worst", std::to_string(worst));
    EXPECT_LT(worst, difference_error) << "seed " << seed;
}

TEST(LogStrain, TangentIsTheDerivativeOfStress) {
    RandomStretch random;
    // A log stress that follows the log strain, so that both parts of the tangent count.
    Eigen::Matrix3d D;
    D << 300, 20, -10, 20, 120, 15, -10, 15, 90;
    double worst = 0;
    double worst_asymmetry = 0;
    for (int n = 0; n < n_states; ++n) {
        const SplitStrain C = split(random.next());
        const SplitStress T0 = random.stress();
        const SplitStrain e0 = LogStrain(C).value();
        const auto stress_at = [&](const SplitStrain& at) -> Eigen::Vector3d {
            const LogStrain strain(at);
            return strain.stress(T0 + D * (strain.value() - e0));
        };
        const Eigen::Matrix3d H = LogStrain(C).tangent(T0, D);
        worst_asymmetry = std::max(worst_asymmetry, (H - H.transpose()).norm() / H.norm());
        for (int i = 0; i < 3; ++i) {
            const double h = step_for(C);
            const Eigen::Vector3d slope =
                (stress_at(moved(C, i, h)) - stress_at(moved(C, i, -h))) / (2 * h);
            worst = std::max(worst, (slope - H.col(i)).norm() / H.norm());
        }
    }
    RecordProperty("worst", std::to_string(worst));
    EXPECT_LT(worst, difference_error) << "seed " << seed;
    EXPECT_LT(worst_asymmetry, rounding);
}

} // namespace
} // namespace flangewright::material
