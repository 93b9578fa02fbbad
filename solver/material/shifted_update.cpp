#include "solver/material/shifted_update.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::material {

namespace {

constexpr int n_iterations_most = 60;
constexpr double relative_tolerance = 1e-10; // of the flow stress

// von Mises stress squared is sum of weight times component squared.
const SplitStress mises_weight(0.25, 0.75, 0.75);

double squared_mises(const SplitStress& s) {
    return s.dot(mises_weight.cwiseProduct(s));
}

// What an increment of plastic length x makes of the back stresses, whichever way it flows.
struct Recall {
    SplitStress kept = SplitStress::Zero(); // sum of what is left of those before
    SplitStress loss = SplitStress::Zero(); // its fall over x
    double growth = 0; // what is added along the flow, in flow stresses of length
    double growth_slope = 0;
    double lag = 0; // growth - x growth_slope
};

Recall recall_after(const MixedHardening& hardening, const ShiftedMemory& before, double x) {
    Recall recall;
    for (std::size_t i = 0; i < hardening.shifts.size(); ++i) {
        const BackStress& shift = hardening.shifts[i];
        const double left = 1 / (1 + shift.recall * x);
        recall.kept += left * before.back_stresses[i];
        recall.loss += shift.recall * left * left * before.back_stresses[i];
        recall.growth += shift.stiffness * left * x;
        recall.growth_slope += shift.stiffness * left * left;
        recall.lag += shift.stiffness * left * (1 - left) * x;
    }
    return recall;
}

// A trial state and how stiffly its components relax: elastic stiffness times Mises weight.
struct Trial {
    SplitStress stress;
    SplitStress relaxation;
};

struct PlasticStep {
    double length = 0; // plastic strain increment x
    FlowStress flow;
    Recall recall;
    SplitStress direction; // relative stress over flow stress, b/d
    SplitStress resistance; // d = flow + growth + relaxation x
    SplitStress turn; // change of b - direction d over x
    bool has_converged = false;
};

// Fills all that follows from step.length; returns the Mises length of the direction.
double evaluate(
    PlasticStep& step,
    const Trial& trial,
    const MixedHardening& hardening,
    const ShiftedMemory& before
) {
    const double x = step.length;
    step.flow = hardening.size.at(before.flow.equivalent + x);
    step.recall = recall_after(hardening, before, x);
    const double size = step.flow.stress + step.recall.growth;
    const double slope = step.flow.slope + step.recall.growth_slope;
    step.resistance = (size + (trial.relaxation * x).array()).matrix();
    step.direction = (trial.stress - step.recall.kept).cwiseQuotient(step.resistance);
    step.turn =
        step.recall.loss - step.direction.cwiseProduct((slope + trial.relaxation.array()).matrix());
    return std::sqrt(squared_mises(step.direction));
}

// Change of the direction's squared Mises length over x, halved.
double squared_length_slope(const PlasticStep& step) {
    return mises_weight.cwiseProduct(step.direction).dot(step.turn.cwiseQuotient(step.resistance));
}

// Finds the plastic length x that brings the direction to the Mises length r = 1. Newton runs on
// 1/r - 1, which is straight in x but for hardening and recall; a bracket catches what is not.
PlasticStep find_plastic_step(
    const Trial& trial,
    const MixedHardening& hardening,
    const ShiftedMemory& before,
    double first_guess
) {
    PlasticStep step;
    double low = 0;
    double high = -1; // unknown
    step.length = first_guess;
    for (int i = 0; i < n_iterations_most; ++i) {
        const double r = evaluate(step, trial, hardening, before);
        if (std::abs(r - 1) <= relative_tolerance || (high > 0 && high - low < 1e-16)) {
            step.has_converged = true;
            return step;
        }
        (r > 1 ? low : high) = step.length;
        const double slope = -squared_length_slope(step) / (r * r * r);
        double next = step.length - (1 / r - 1) / slope;
        if (!(next > low) || (high > 0 && !(next < high))) {
            next = high > 0 ? 0.5 * (low + high) : 2 * low + 1e-6;
        }
        step.length = next;
    }
    return step;
}

// d(stress) = A d(trial) - u (v . d(trial)) / s; u and v differ by what recall turns away.
Eigen::Matrix3d
tangent_of(const PlasticStep& step, const Trial& trial, const SplitStress& stiffness) {
    const double x = step.length;
    const SplitStress over = trial.relaxation.cwiseQuotient(step.resistance);
    const double along = step.flow.stress - x * step.flow.slope + step.recall.lag;
    const SplitStress u = over.cwiseProduct(along * step.direction + x * step.recall.loss);
    const SplitStress v = over.cwiseProduct(step.direction); // times the strain's change
    const double s = -squared_length_slope(step);
    Eigen::Matrix3d tangent = Eigen::Matrix3d::Zero();
    tangent.diagonal() = stiffness.cwiseProduct((1 - x * over.array()).matrix());
    tangent.noalias() -= u * (v / s).transpose();
    return tangent;
}

void remember(
    ShiftedUpdate& answer,
    const PlasticStep& step,
    const MixedHardening& hardening,
    const ShiftedMemory& before
) {
    const double x = step.length;
    PointMemory& memory = answer.point.memory;
    memory.plastic_mean += mises_weight[0] * x * step.direction[0];
    memory.plastic_difference += mises_weight[1] * x * step.direction[1];
    memory.plastic_shear += mises_weight[2] * x * step.direction[2];
    memory.equivalent += x;
    for (std::size_t i = 0; i < hardening.shifts.size(); ++i) {
        const BackStress& shift = hardening.shifts[i];
        answer.back_stresses[i] = (before.back_stresses[i] + shift.stiffness * x * step.direction)
            / (1 + shift.recall * x);
    }
}

double thickness_strain(double poisson_ratio, double mean, double plastic_mean) {
    return -2 * poisson_ratio / (1 - poisson_ratio) * (mean - plastic_mean) - 2 * plastic_mean;
}

} // namespace

ShiftedUpdate update_point(
    const PlaneElasticity& elasticity,
    const MixedHardening& hardening,
    const SplitStrain& log_strain,
    const ShiftedMemory& before,
    bool with_tangent
) {
    const SplitStress stiffness(
        elasticity.mean_stiffness(), elasticity.shear_stiffness(), elasticity.shear_stiffness()
    );
    const SplitStrain plastic(
        before.flow.plastic_mean, before.flow.plastic_difference, before.flow.plastic_shear
    );
    const Trial trial{
        stiffness.cwiseProduct(log_strain - plastic), stiffness.cwiseProduct(mises_weight)};
    ShiftedUpdate answer;
    PointUpdate& point = answer.point;
    point.memory = before.flow;
    std::ranges::copy(before.back_stresses, answer.back_stresses.begin());
    if (!std::isfinite(trial.stress.sum())) {
        return answer; // no strain that a sheet can have
    }
    SplitStress relative = trial.stress;
    for (const SplitStress& back : before.back_stresses) {
        relative -= back;
    }
    const FlowStress flow = hardening.size.at(before.flow.equivalent);
    const double squared = squared_mises(relative);
    if (squared <= flow.stress * flow.stress) {
        point.stress = trial.stress;
        if (with_tangent) {
            point.tangent.diagonal() = stiffness;
        }
    } else {
        // Where the increment would end without hardening and recall.
        const double softest =
            squared_mises(relative.cwiseProduct(trial.relaxation.cwiseSqrt())) / squared;
        const PlasticStep step = find_plastic_step(
            trial, hardening, before, (std::sqrt(squared) - flow.stress) / softest
        );
        if (!step.has_converged) {
            return answer;
        }
        point.stress = trial.stress - (step.length * trial.relaxation).cwiseProduct(step.direction);
        remember(answer, step, hardening, before);
        if (with_tangent) {
            point.tangent = tangent_of(step, trial, stiffness);
        }
    }
    point.has_converged = true;
    point.thickness_strain =
        thickness_strain(elasticity.poisson_ratio, log_strain[0], point.memory.plastic_mean);
    return answer;
}

} // namespace flangewright::material
