#include "solver/limits/necking.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright::limits {

namespace {

constexpr double finest_scan = 1e-4; // of plastic strain: two such roots closer are taken as one
constexpr int n_halvings = 50;

} // namespace

double equivalent_per_major(double ratio) {
    return 2 / std::numbers::sqrt3 * std::sqrt(1 + ratio + ratio * ratio);
}

double swift_factor(double ratio) {
    const double b = ratio;
    const double major = 2 * (1 + b + b * b) / ((1 + b) * (2 * b * b - b + 2));
    return major * equivalent_per_major(ratio);
}

double hill_factor(double ratio) {
    return equivalent_per_major(ratio) / (1 + ratio);
}

double swift_major_strain(double exponent, double prestrain, double ratio) {
    return (exponent * swift_factor(ratio) - prestrain) / equivalent_per_major(ratio);
}

double hill_major_strain(double exponent, double prestrain, double ratio) {
    return (exponent * hill_factor(ratio) - prestrain) / equivalent_per_major(ratio);
}

std::optional<double> neck_strain(const material::HardeningLaw& law, double factor, double most) {
    const auto necks = [&](double p) {
        const material::FlowStress flow = law.at(p);
        return factor * flow.slope <= flow.stress;
    };
    if (necks(0)) {
        return 0;
    }
    double before = 0;
    double p = 0;
    while (!necks(p)) {
        if (p >= most) {
            return std::nullopt;
        }
        before = p;
        p = std::min(most, p + std::max(finest_scan, 0.01 * p));
    }
    for (int i = 0; i < n_halvings; ++i) {
        const double middle = 0.5 * (before + p);
        (necks(middle) ? p : before) = middle;
    }
    return p;
}

} // namespace flangewright::limits
