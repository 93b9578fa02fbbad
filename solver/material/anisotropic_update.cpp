#include "solver/material/anisotropic_update.hpp"

#include <Eigen/LU>

#include <algorithm>

namespace flangewright::material {

namespace {

constexpr int n_iterations_most = 100;
constexpr int n_halvings_most = 30;
constexpr double relative_tolerance = 1e-11; // of the flow stress
constexpr double rounding = 1e-14; // of a trial stress far outside

// Stress divided by the root of the elastic stiffness, in rolling axes. Distance is then elastic
// energy, and the return the shortest way to the surface.
using Scaled = Eigen::Vector3d;

RollingStress rolling_components(const SplitStress& T) {
    return {0.5 * (T[0] + T[1]), 0.5 * (T[0] - T[1]), 0.5 * T[2]};
}

// What does not change within one return.
struct Return {
    const YieldLaw& law;
    const HardeningLaw& hardening;
    Eigen::Vector3d root; // of the elastic stiffness, split
    Eigen::Matrix3d to_stress; // from the scaled stress to rolling components
    Scaled trial;
    double equivalent = 0; // before
};

Return make_return(
    const PlaneElasticity& elasticity,
    const HardeningLaw& hardening,
    const YieldLaw& law,
    const SplitStress& trial,
    double equivalent
) {
    const double mean = std::sqrt(elasticity.mean_stiffness());
    const double shear = std::sqrt(elasticity.shear_stiffness());
    Return task{law, hardening, {mean, shear, shear}, {}, {}, equivalent};
    task.to_stress << 0.5 * mean, 0.5 * shear, 0, 0.5 * mean, -0.5 * shear, 0, 0, 0, 0.5 * shear;
    task.trial = trial.cwiseQuotient(task.root);
    return task;
}

// A place on the way: scaled stress and plastic length, and how far they are from the answer.
struct Place {
    Scaled stress = Scaled::Zero();
    double length = 0; // equivalent plastic strain of the increment
    double yield = 0; // equivalent stress
    Eigen::Vector3d gradient = Eigen::Vector3d::Zero(); // of it over the scaled stress
    Eigen::Matrix3d curvature = Eigen::Matrix3d::Zero();
    FlowStress flow;
    Eigen::Vector3d flow_fault = Eigen::Vector3d::Zero(); // stress - trial + length gradient
    double yield_fault = 0; // equivalent stress less flow stress

    // Squared distance from the answer, both faults as scaled stresses.
    [[nodiscard]] double fault(const Return& task) const {
        return flow_fault.squaredNorm() + yield_fault * yield_fault / (task.root[1] * task.root[1]);
    }
    [[nodiscard]] bool is_answer(const Return& task) const {
        return flow_fault.norm()
            <= relative_tolerance * stress.norm() + rounding * task.trial.norm()
            && std::abs(yield_fault) <= relative_tolerance * flow.stress;
    }
};

void add_faults(const Return& task, Place& place) {
    place.flow = task.hardening.at(task.equivalent + place.length);
    place.flow_fault = place.stress - task.trial + place.length * place.gradient;
    place.yield_fault = place.yield - place.flow.stress;
}

Place place_at(const Return& task, const Scaled& stress, double length) {
    const YieldPoint point = task.law.at(task.to_stress * stress);
    Place place;
    place.stress = stress;
    place.length = length;
    place.yield = point.stress;
    place.gradient.noalias() = task.to_stress.transpose() * point.gradient;
    place.curvature.noalias() = task.to_stress.transpose() * point.curvature * task.to_stress;
    add_faults(task, place);
    return place;
}

// The linear equations of a place, solved for the stress first.
struct Linear {
    Eigen::Matrix3d compliance; // inverse of 1 + length curvature
    Eigen::Vector3d along; // compliance times gradient
    double resistance = 0; // to plastic flow
};

Linear linear_at(const Place& place) {
    Linear linear;
    const Eigen::Matrix3d stiffness = Eigen::Matrix3d::Identity() + place.length * place.curvature;
    linear.compliance = stiffness.inverse();
    linear.along.noalias() = linear.compliance * place.gradient;
    linear.resistance = place.gradient.dot(linear.along) + place.flow.slope;
    return linear;
}

// On the ray of the trial stress, where the gradient is that of the trial, at the flow stress that
// the increment's length there gives.
Place first_place(const Return& task, double flow_stress) {
    const YieldPoint point = task.law.at(task.to_stress * task.trial);
    Place place;
    place.gradient.noalias() = task.to_stress.transpose() * point.gradient;
    const double resistance = task.trial.dot(place.gradient) / place.gradient.squaredNorm();
    place.length = (1 - flow_stress / point.stress) * resistance;
    const double reached = task.hardening.at(task.equivalent + place.length).stress;
    const double share = std::min(reached / point.stress, 1.0);
    place.length = (1 - share) * resistance;
    place.stress = share * task.trial;
    place.yield = share * point.stress;
    place.curvature.noalias() =
        task.to_stress.transpose() * (point.curvature / share) * task.to_stress;
    add_faults(task, place);
    return place;
}

// Newton's step, halved until the fault falls. The matrix has an inverse everywhere (1 + length
// curvature is positive, resistance too), so its direction always leads downhill.
bool go_on(const Return& task, Place& place) {
    const Linear linear = linear_at(place);
    const double length =
        (place.yield_fault - linear.along.dot(place.flow_fault)) / linear.resistance;
    const Scaled stress = -(linear.compliance * place.flow_fault + length * linear.along);
    constexpr double length_kept = 0.1; // of it, at least
    constexpr double stress_kept = 0.1; // likewise: at no stress there is no gradient
    double share = 1;
    if (length < -(1 - length_kept) * place.length) {
        share = -(1 - length_kept) * place.length / length;
    }
    const double before = place.fault(task);
    for (int halving = 0; halving < n_halvings_most; ++halving, share *= 0.5) {
        const Place next =
            place_at(task, place.stress + share * stress, place.length + share * length);
        if (next.yield > stress_kept * place.yield
            && next.fault(task) <= (1 - 1e-4 * share) * before) {
            place = next;
            return true;
        }
    }
    return false;
}

Eigen::Matrix3d tangent_at(const Return& task, const Place& place, const RollingTurn& turn) {
    const Linear linear = linear_at(place);
    Eigen::Matrix3d rolling =
        linear.compliance - linear.along * linear.along.transpose() / linear.resistance;
    rolling = task.root.asDiagonal() * rolling * task.root.asDiagonal();
    Eigen::Matrix3d turned = Eigen::Matrix3d::Identity();
    turned.bottomRightCorner<2, 2>() << turn.cosine, turn.sine, -turn.sine, turn.cosine;
    return turned.transpose() * rolling * turned;
}

Eigen::Vector3d plastic_strain(const PointMemory& memory) {
    return {memory.plastic_mean, memory.plastic_difference, memory.plastic_shear};
}

// Finds the answer from a trial stress outside the surface; false when it can't.
bool flow_back(
    const Return& task,
    double flow_stress,
    const RollingTurn& turn,
    const SplitStrain& log_strain,
    bool with_tangent,
    PointUpdate& answer
) {
    Place place = first_place(task, flow_stress);
    for (int i = 0; i < n_iterations_most && !place.is_answer(task); ++i) {
        if (!go_on(task, place)) {
            return false;
        }
    }
    if (!place.is_answer(task)) {
        return false;
    }
    answer.stress = turn.from_rolling(place.stress.cwiseProduct(task.root));
    const SplitStrain elastic =
        answer.stress.cwiseQuotient(task.root.cwiseProduct(task.root)); // the same in all axes
    const SplitStrain plastic = log_strain - elastic;
    answer.memory = {plastic[0], plastic[1], plastic[2], task.equivalent + place.length};
    if (with_tangent) {
        answer.tangent = tangent_at(task, place, turn);
    }
    return true;
}

} // namespace

double equivalent_stress(const LaidYield& yield, const SplitStress& stress) {
    return yield.law.stress(rolling_components(yield.turn.to_rolling(stress)));
}

SplitStrain flow_direction(const LaidYield& yield, const SplitStress& stress) {
    const Eigen::Vector3d rate =
        yield.law.at(rolling_components(yield.turn.to_rolling(stress))).gradient;
    return yield.turn.from_rolling(
        {0.5 * (rate[0] + rate[1]), 0.5 * (rate[0] - rate[1]), 0.5 * rate[2]}
    );
}

PointUpdate update_point(
    const PlaneElasticity& elasticity,
    const HardeningLaw& hardening,
    const LaidYield& yield,
    const SplitStrain& log_strain,
    const PointMemory& before,
    bool with_tangent
) {
    const SplitStress stiffness(
        elasticity.mean_stiffness(), elasticity.shear_stiffness(), elasticity.shear_stiffness()
    );
    const SplitStress trial = stiffness.cwiseProduct(log_strain - plastic_strain(before));
    PointUpdate answer;
    answer.memory = before;
    if (!std::isfinite(trial.sum())) {
        return answer; // no strain that a sheet can have
    }
    const SplitStress rolling = yield.turn.to_rolling(trial);
    const FlowStress flow = hardening.at(before.equivalent);
    if (yield.law.stress(rolling_components(rolling)) <= flow.stress) {
        answer.stress = trial;
        if (with_tangent) {
            answer.tangent.diagonal() = stiffness;
        }
    } else {
        const Return task =
            make_return(elasticity, hardening, yield.law, rolling, before.equivalent);
        if (!flow_back(task, flow.stress, yield.turn, log_strain, with_tangent, answer)) {
            return answer;
        }
    }
    answer.has_converged = true;
    const double nu = elasticity.poisson_ratio;
    const double elastic_mean = log_strain[0] - answer.memory.plastic_mean;
    answer.thickness_strain = -2 * nu / (1 - nu) * elastic_mean - 2 * answer.memory.plastic_mean;
    return answer;
}

} // namespace flangewright::material
