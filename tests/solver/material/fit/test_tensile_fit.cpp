#include "solver/material/fit/tensile_fit.hpp"
#include "tests/solver/material/fit/made_test.hpp"

#include <gmock/gmock.h>

namespace flangewright::material {
namespace {

TensileFit fit_of(const MadeStrip& strip, const FitOptions& options = {}) {
    const auto fit = fit_tensile_test(made_test(strip), options);
    EXPECT_TRUE(fit.has_value()) << (fit ? "" : fit.error().found);
    return fit.value_or(TensileFit{});
}

const CurveFit& curve_of(const TensileFit& fit, const std::string& law) {
    const auto found = std::ranges::find_if(fit.curves, [&law](const CurveFit& one) {
        return one.curve.law_name == law;
    });
    EXPECT_NE(found, fit.curves.end()) << law;
    return *found;
}

double parameter(const CurveFit& fit, const std::string& name) {
    return fit.curve.law_values.at(name).front();
}

// Noise of a good machine (common practice, no source).
constexpr double load_noise = 0.3; // MPa
constexpr double strain_noise = 1e-5; // an extensometer of class 0.5

MadeStrip noisy(const std::string& law, const LawValues& values) {
    return {.law = law, .values = values, .stress_noise = load_noise, .strain_noise = strain_noise};
}

TEST(TensileFit, GivesVocesParametersBackWithoutNoise) {
    const TensileFit fit = fit_of({.law = "voce", .values = voce_values});
    ASSERT_FALSE(fit.curves.empty());
    EXPECT_EQ(fit.curves.front().curve.law_name, "voce"); // the better one comes first
    const CurveFit& voce = curve_of(fit, "voce");
    EXPECT_NEAR(parameter(voce, "yield_stress"), 76, 0.1);
    EXPECT_NEAR(parameter(voce, "saturation_stress"), 229, 0.1);
    EXPECT_NEAR(parameter(voce, "rate"), 16.6, 0.02);
    EXPECT_LT(voce.rms, 0.02);
    EXPECT_GT(curve_of(fit, "swift").rms, 1); // the wrong law shows
    EXPECT_GE(voce.largest, voce.rms);
}

// Bounds: three to four standard errors of 300 points with this noise.
TEST(TensileFit, GivesVocesParametersBackFromANoisyRecord) {
    const TensileFit fit = fit_of(noisy("voce", voce_values));
    EXPECT_EQ(fit.elastic.origin, ModulusOrigin::fitted);
    EXPECT_NEAR(fit.elastic.modulus, 70'000, 3 * fit.elastic.slope_error);
    EXPECT_LT(fit.elastic.slope_error, 0.03 * 70'000);
    const CurveFit& voce = curve_of(fit, "voce");
    EXPECT_NEAR(parameter(voce, "yield_stress"), 76, 0.5);
    EXPECT_NEAR(parameter(voce, "saturation_stress"), 229, 1.5);
    EXPECT_NEAR(parameter(voce, "rate"), 16.6, 0.3);
    EXPECT_NEAR(voce.rms, load_noise, 0.2 * load_noise); // what is left is the noise
}

TEST(TensileFit, GivesSwiftsParametersBackFromANoisyRecord) {
    const TensileFit fit = fit_of(noisy("swift", swift_values));
    EXPECT_EQ(fit.curves.front().curve.law_name, "swift");
    const CurveFit& swift = curve_of(fit, "swift");
    EXPECT_NEAR(parameter(swift, "strength"), 330, 0.005 * 330);
    EXPECT_NEAR(parameter(swift, "prestrain"), 0.0032, 0.0002);
    EXPECT_NEAR(parameter(swift, "exponent"), 0.18, 0.005 * 0.18 * 3);
    EXPECT_NEAR(swift.rms, load_noise, 0.25 * load_noise);
}

TEST(TensileFit, FindsMaximumLoadThroughTheNoise) {
    for (const auto& [law, values] :
         {std::pair<std::string, LawValues>{"voce", voce_values}, {"swift", swift_values}}) {
        const MadeStrip strip = noisy(law, values);
        const TensileFit fit = fit_of(strip);
        const double p = uniform_plastic_strain(*law_of(strip));
        const double stress = law_of(strip)->at(p).stress;
        const double strain = std::expm1(p + stress / strip.modulus);
        ASSERT_TRUE(fit.uniform_elongation.has_value());
        // The parabola leaves out that the curve is lopsided: 0.3 % of strain at most here.
        EXPECT_NEAR(*fit.uniform_elongation, strain, 0.005) << law;
        EXPECT_NEAR(fit.tensile_strength, stress / (1 + strain), load_noise) << law;
        EXPECT_NEAR(fit.total_elongation, std::expm1(strip.last_plastic_strain), 0.002) << law;
    }
}

TEST(TensileFit, FindsTheProofStress) {
    const MadeStrip strip = noisy("voce", voce_values);
    // At the proof stress the plastic part of the engineering strain is 0.2 %.
    const double expected = law_of(strip)->at(0.002).stress;
    EXPECT_NEAR(fit_of(strip).elastic.proof_stress, expected, 0.01 * expected);
}

// For stress = K p^n alone, ln stress over ln p is straight with slope n, whatever the range.
TEST(TensileFit, SlopeOfAPowerLawIsItsExponent) {
    const LawValues power{{"strength", {330}}, {"prestrain", {1e-6}}, {"exponent", {0.18}}};
    const TensileFit fit = fit_of({.law = "swift", .values = power});
    ASSERT_TRUE(fit.n.has_value());
    EXPECT_NEAR(fit.n->value, 0.18, 0.001);
    EXPECT_DOUBLE_EQ(fit.n->range.least, 0.1);
    EXPECT_NEAR(fit.n->range.most, 0.196, 0.006); // the uniform elongation, exp(0.18) - 1
}

TEST(TensileFit, FindsRFromTheWidth) {
    for (const double r : {0.37, 0.8, 1.9}) {
        MadeStrip strip = noisy("voce", voce_values);
        strip.r = r;
        const TensileFit fit = fit_of(strip);
        ASSERT_TRUE(fit.r.has_value());
        EXPECT_NEAR(fit.r->value, r, 0.01 * r);
    }
    EXPECT_FALSE(fit_of(noisy("voce", voce_values)).r.has_value());
}

TEST(TensileFit, LeavesUniformElongationUnknownWhenLoadRisesToTheEnd) {
    MadeStrip strip = noisy("voce", voce_values);
    strip.last_plastic_strain = 0.08; // maximum load is at 0.145
    const TensileFit fit = fit_of(strip);
    EXPECT_FALSE(fit.uniform_elongation.has_value());
    ASSERT_FALSE(fit.curves.empty());
    EXPECT_NEAR(fit.points.plastic_strain.back(), 0.08, 0.001);
}

TEST(TensileFit, DoesNotMindWhereTheZeroOfTheStrainLies) {
    MadeStrip strip = noisy("voce", voce_values);
    const TensileFit straight = fit_of(strip);
    strip.first_strain = 0.004;
    const TensileFit shifted = fit_of(strip);
    EXPECT_NEAR(shifted.elastic.proof_stress, straight.elastic.proof_stress, 1e-6);
    EXPECT_NEAR(*shifted.uniform_elongation, *straight.uniform_elongation, 1e-6);
}

TEST(TensileFit, RefusesAWidthThatGrows) {
    MadeStrip strip = noisy("voce", voce_values);
    strip.r = 0.8;
    TensileTest test = made_test(strip);
    for (double& width : test.width_strain) {
        width = -width;
    }
    const auto fit = fit_tensile_test(test, {});
    ASSERT_FALSE(fit.has_value());
    EXPECT_THAT(fit.error().remedy, ::testing::HasSubstr("width"));
}

} // namespace
} // namespace flangewright::material
