// A tensile test made from a known law, with a known noise: what a fit must give back.
#pragma once

#include "solver/material/fit/tensile_test.hpp"
#include "solver/material/hardening_law.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace flangewright::material {

/// How the made-up strip and its record are.
struct MadeStrip {
    std::string law;
    LawValues values;
    double modulus = 70'000; ///< MPa
    double last_plastic_strain = 0.22;
    double stress_noise = 0; ///< standard deviation, MPa
    double strain_noise = 0;
    double r = 0; ///< 0: width not recorded
    int n_elastic = 40;
    int n_plastic = 400;
    double first_strain = 0; ///< where the extensometer's zero lies
};

inline const LawValues voce_values{
    {"yield_stress", {76}}, {"saturation_stress", {229}}, {"rate", {16.6}}};
inline const LawValues swift_values{
    {"strength", {330}}, {"prestrain", {0.0032}}, {"exponent", {0.18}}};

inline std::shared_ptr<const HardeningLaw> law_of(const MadeStrip& strip) {
    for (const HardeningEntry& entry : hardening_laws()) {
        if (entry.name == strip.law) {
            return entry.make(strip.values);
        }
    }
    return nullptr;
}

inline TensileTest made_test(const MadeStrip& strip) {
    std::mt19937 engine(20240611); // the same noise each time
    std::normal_distribution<double> noise(0, 1);
    const auto law = law_of(strip);
    TensileTest test;
    const auto add = [&](double stress, double plastic_strain) {
        const double strain = std::expm1(plastic_strain + stress / strip.modulus);
        test.strain.push_back(strip.first_strain + strain + strip.strain_noise * noise(engine));
        test.stress.push_back(stress / (1 + strain) + strip.stress_noise * noise(engine));
        if (strip.r > 0) {
            const double across = -plastic_strain * strip.r / (1 + strip.r);
            test.width_strain.push_back(std::expm1(across - 0.33 * stress / strip.modulus));
        }
    };
    for (int i = 0; i < strip.n_elastic; ++i) {
        add(law->at(0).stress * i / strip.n_elastic, 0);
    }
    for (int i = 0; i <= strip.n_plastic; ++i) {
        const double p = strip.last_plastic_strain * i / strip.n_plastic;
        add(law->at(p).stress, p);
    }
    return test;
}

/// The same without noise, by the condition of maximum load: slope = stress. Bisection.
inline double uniform_plastic_strain(const HardeningLaw& law) {
    double low = 0;
    double high = 1;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        const FlowStress flow = law.at(middle);
        (flow.slope > flow.stress ? low : high) = middle;
    }
    return low;
}

} // namespace flangewright::material
