#include "solver/limits/flow_along.hpp"

#include <Eigen/LU>

#include <cmath>

namespace flangewright::limits {

namespace {

using Vector = Eigen::Vector3d;

constexpr int n_steps_most = 100;
constexpr double small_enough = 1e-10; // of the strain
// A law of high exponent has hardly any curvature in some directions; this much keeps the matrix
// regular there and costs some steps.
constexpr double ridge = 1e-9;

double potential(const material::YieldLaw& law, const Vector& s, const Vector& strain) {
    const double f = law.stress(s);
    return 0.5 * f * f - s.dot(strain);
}

/// One step of Newton's method, halved until the potential falls.
Vector step_down(
    const material::YieldLaw& law,
    const Vector& s,
    const Vector& strain,
    const material::YieldPoint& at
) {
    Eigen::Matrix3d slope = at.gradient * at.gradient.transpose() + at.stress * at.curvature;
    slope.diagonal().array() += ridge * slope.trace();
    const Vector rest = at.stress * at.gradient - strain;
    Vector move = -(slope.inverse() * rest);
    const double before = potential(law, s, strain);
    const double wanted = 1e-4 * rest.dot(move);
    for (int halving = 0; halving < 30; ++halving) {
        if (potential(law, s + move, strain) <= before + wanted) {
            break;
        }
        // Rounding hides the last digits of the potential, not those of its slope.
        const material::YieldPoint there = law.at(s + move);
        if ((there.stress * there.gradient - strain).norm() < 0.5 * rest.norm()) {
            break;
        }
        move *= 0.5;
    }
    return s + move;
}

} // namespace

FlowAlong flow_along(const material::YieldLaw& law, const RollingStrain& strain) {
    const double size = strain.norm();
    if (!(size > 0) || !std::isfinite(size)) {
        return {};
    }
    const Vector unit = strain / size;
    // That of von Mises is near enough to begin at.
    Vector s{2.0 / 3 * (2 * unit[0] + unit[1]), 2.0 / 3 * (unit[0] + 2 * unit[1]), unit[2] / 3};
    material::YieldPoint at = law.at(s);
    for (int i = 0; i < n_steps_most; ++i) {
        if ((at.stress * at.gradient - unit).norm() < small_enough) {
            break;
        }
        s = step_down(law, s, unit, at);
        at = law.at(s);
    }
    return {at.stress * size, s / at.stress};
}

} // namespace flangewright::limits
