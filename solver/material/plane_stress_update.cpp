#include "solver/material/plane_stress_update.hpp"

#include <cmath>

namespace flangewright::material {

namespace {

constexpr int n_iterations_most = 60;
constexpr double relative_tolerance = 1e-10; // of the flow stress

// Squared von Mises stress in split form: 1/4 sum^2 + 3/4 (difference^2 + shear^2).
double squared_mises(const SplitStress& s) {
    return 0.25 * s[0] * s[0] + 0.75 * (s[1] * s[1] + s[2] * s[2]);
}

struct PlasticStep {
    double length = 0; // plastic strain increment
    FlowStress flow;
    bool has_converged = false;
};

// Finds the plastic strain increment x with
//     r(x) = sqrt(mean2 / (Y + k_mean x)^2 + shear2 / (Y + k_shear x)^2) = 1,   Y = flow(p0 + x),
// which is "returned stress = flow stress" divided by Y^2. Newton runs on 1/r - 1, which is
// straight in x but for hardening; a bracket catches what is not.
PlasticStep find_plastic_step(
    const SplitStress& trial,
    double k_mean,
    double k_shear,
    const HardeningLaw& hardening,
    double p0,
    double flow_begin
) {
    PlasticStep step;
    double low = 0;
    double high = -1; // unknown
    const double mean2 = 0.25 * trial[0] * trial[0];
    const double shear2 = 0.75 * (trial[1] * trial[1] + trial[2] * trial[2]);
    // Start where the increment would end without further hardening: close, since elastic stiffness
    // is many times the slope of the curve.
    const double mises = std::sqrt(mean2 + shear2);
    const double stiffness = (mean2 * k_mean + shear2 * k_shear) / (mean2 + shear2);
    step.length = (mises - flow_begin) / stiffness;
    for (int i = 0; i < n_iterations_most; ++i) {
        step.flow = hardening.at(p0 + step.length);
        const double over_mean = 1 / (step.flow.stress + k_mean * step.length);
        const double over_shear = 1 / (step.flow.stress + k_shear * step.length);
        const double part_mean = mean2 * over_mean * over_mean;
        const double part_shear = shear2 * over_shear * over_shear;
        const double r2 = part_mean + part_shear;
        const double r = std::sqrt(r2);
        if (std::abs(r - 1) <= relative_tolerance) {
            step.has_converged = true;
            return step;
        }
        (r > 1 ? low : high) = step.length;
        const double slope = (part_mean * over_mean * (step.flow.slope + k_mean)
                              + part_shear * over_shear * (step.flow.slope + k_shear))
            / (r2 * r);
        double next = step.length - (1 / r - 1) / slope;
        if (!(next > low) || (high > 0 && !(next < high))) {
            next = high > 0 ? 0.5 * (low + high) : 2 * low + 1e-6;
        }
        if (high > 0 && high - low < 1e-16) {
            step.has_converged = true; // the bracket is as narrow as numbers allow
            return step;
        }
        step.length = next;
    }
    return step;
}

} // namespace

PointUpdate update_point(
    const PlaneElasticity& elasticity,
    const HardeningLaw& hardening,
    const SplitStrain& log_strain,
    const PointMemory& before,
    bool with_tangent
) {
    const double D_m = elasticity.mean_stiffness();
    const double D_s = elasticity.shear_stiffness();
    const Eigen::Vector3d plastic(
        before.plastic_mean, before.plastic_difference, before.plastic_shear
    );
    const Eigen::Vector3d elastic = log_strain - plastic;
    const SplitStress trial(D_m * elastic[0], D_s * elastic[1], D_s * elastic[2]);

    PointUpdate answer;
    answer.memory = before;
    if (!std::isfinite(trial.sum())) {
        return answer; // no strain that a sheet can have
    }
    const FlowStress flow = hardening.at(before.equivalent);
    if (squared_mises(trial) <= flow.stress * flow.stress) {
        answer.stress = trial;
        answer.has_converged = true;
        if (with_tangent) {
            answer.tangent.diagonal() << D_m, D_s, D_s;
        }
    } else {
        // Stress returns along each split component by its own factor: k is stiffness times the
        // component's weight in the flow rule (1/4 and 3/4).
        const double k_mean = 0.25 * D_m;
        const double k_shear = 0.75 * D_s;
        const PlasticStep step =
            find_plastic_step(trial, k_mean, k_shear, hardening, before.equivalent, flow.stress);
        if (!step.has_converged) {
            return answer;
        }
        const double Y = step.flow.stress;
        const double delta = step.length / Y;
        const double a_m = 1 / (1 + k_mean * delta);
        const double a_s = 1 / (1 + k_shear * delta);
        answer.stress = SplitStress(a_m * trial[0], a_s * trial[1], a_s * trial[2]);
        answer.memory.plastic_mean += 0.25 * delta * answer.stress[0];
        answer.memory.plastic_difference += 0.75 * delta * answer.stress[1];
        answer.memory.plastic_shear += 0.75 * delta * answer.stress[2];
        answer.memory.equivalent += step.length;
        answer.has_converged = true;
        if (with_tangent) {
            const double d_delta = (1 - delta * step.flow.slope) / Y;
            const Eigen::Vector3d r(
                a_m * k_mean * answer.stress[0],
                a_s * k_shear * answer.stress[1],
                a_s * k_shear * answer.stress[2]
            );
            const Eigen::Vector3d normal(
                0.5 * answer.stress[0], 1.5 * answer.stress[1], 1.5 * answer.stress[2]
            );
            const double stiffening = 2 * Y * step.flow.slope + normal.dot(r) * d_delta;
            answer.tangent.diagonal() << a_m * D_m, a_s * D_s, a_s * D_s;
            answer.tangent.noalias() -= (2 * d_delta / stiffening) * r * r.transpose();
        }
    }
    const double nu = elasticity.poisson_ratio;
    const double elastic_mean = log_strain[0] - answer.memory.plastic_mean;
    answer.thickness_strain = -2 * nu / (1 - nu) * elastic_mean - 2 * answer.memory.plastic_mean;
    return answer;
}

} // namespace flangewright::material
