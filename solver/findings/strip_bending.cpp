#include "solver/findings/strip_bending.hpp"

#include "mesh/base/check.hpp"
#include "solver/material/anisotropic_update.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace flangewright::findings {

namespace {

constexpr int n_path_steps = 2000;
constexpr int n_layers_each_side = 1000; // even: Simpson's rule takes them in pairs

/// Elastic constants in the form the return to the yield surface needs.
struct Elastic {
    double plane_strain_modulus;
    double poisson_ratio;
    double sum_stiffness; // E / (2 (1 - nu)): how the sum of both stresses relaxes
    double difference_stiffness; // 3 G: how their difference relaxes
};

Elastic elastic_of(const material::SheetMaterial& material) {
    const double E = material.youngs_modulus;
    const double nu = material.poisson_ratio;
    return {E / (1 - nu * nu), nu, 0.5 * E / (1 - nu), 1.5 * E / (1 + nu)};
}

/// A trial state split into the parts that relax independently.
struct Trial {
    double sum;
    double difference;
};

/// Squared equivalent stress after a plastic step of length `increment` at flow stress `flow`.
double relaxed_square(const Trial& trial, const Elastic& elastic, double increment, double flow) {
    const double sum = trial.sum / (1 + elastic.sum_stiffness * increment / flow);
    const double difference =
        trial.difference / (1 + elastic.difference_stiffness * increment / flow);
    return 0.25 * sum * sum + 0.75 * difference * difference;
}

/// Plastic strain added by one step, by bisection: the overshoot falls steadily with the increment.
double plastic_increment(
    const Trial& trial, const Elastic& elastic, const material::HardeningLaw& law, double before
) {
    const auto is_outside = [&](double increment) {
        const double flow = law.at(before + increment).stress;
        return relaxed_square(trial, elastic, increment, flow) > flow * flow;
    };
    double high = std::hypot(trial.sum, trial.difference) / elastic.plane_strain_modulus + 1e-12;
    while (is_outside(high) && high < 1e3) {
        high *= 2;
    }
    double low = 0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (is_outside(middle) ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

FibrePoint stretched_further(
    const FibrePoint& from, double step, const Elastic& elastic, const material::HardeningLaw& law
) {
    FibrePoint to = from;
    to.strain += step;
    to.stress += elastic.plane_strain_modulus * step;
    to.transverse_stress += elastic.plane_strain_modulus * elastic.poisson_ratio * step;
    const Trial trial{to.stress + to.transverse_stress, to.stress - to.transverse_stress};
    const double flow_before = law.at(from.plastic_strain).stress;
    if (relaxed_square(trial, elastic, 0, 1) <= flow_before * flow_before) {
        return to;
    }
    const double increment = plastic_increment(trial, elastic, law, from.plastic_strain);
    to.plastic_strain += increment;
    const double flow = law.at(to.plastic_strain).stress;
    const double sum = trial.sum / (1 + elastic.sum_stiffness * increment / flow);
    const double difference =
        trial.difference / (1 + elastic.difference_stiffness * increment / flow);
    to.stress = 0.5 * (sum + difference);
    to.transverse_stress = 0.5 * (sum - difference);
    return to;
}

/// The same steps by the return of any yield law.
std::vector<FibrePoint> stretched_by_law(
    const material::SheetMaterial& material,
    const material::HardeningLaw& flow,
    double grain,
    double step,
    int n_steps
) {
    // The fibre runs square to the bend line.
    const material::LaidYield yield{
        *material.yield, material::RollingTurn::by(grain - 0.5 * std::numbers::pi)};
    const material::PlaneElasticity elasticity{material.youngs_modulus, material.poisson_ratio};
    std::vector<FibrePoint> path{FibrePoint{}};
    material::PointMemory memory;
    for (int i = 1; i <= n_steps; ++i) {
        const double strain = i * step;
        const material::PointUpdate now = material::update_point(
            elasticity, flow, yield, {0.5 * strain, 0.5 * strain, 0}, memory, false
        );
        check(now.has_converged, "a small step of a fibre finds its stress");
        memory = now.memory;
        path.push_back(
            {strain,
             0.5 * (now.stress[0] + now.stress[1]),
             0.5 * (now.stress[0] - now.stress[1]),
             memory.equivalent}
        );
    }
    return path;
}

/// Stress at a strain of either sign; the path is the same in tension and compression.
double stress_at(const std::vector<FibrePoint>& path, double strain) {
    const double step = path[1].strain;
    const double place = std::abs(strain) / step;
    const auto last = static_cast<double>(path.size() - 2);
    const auto i = static_cast<std::size_t>(std::min(std::floor(place), last));
    const double share = place - static_cast<double>(i);
    const double stress = path[i].stress + share * (path[i + 1].stress - path[i].stress);
    return std::copysign(stress, strain);
}

/// Moment of one half of the section, by Simpson's rule over the layers from the middle outward.
double half_moment(const std::vector<FibrePoint>& path, double mid_radius, double surface) {
    const double step = surface / n_layers_each_side;
    double sum = 0;
    for (int i = 1; i <= n_layers_each_side; ++i) {
        const double y = i * step;
        const double weight = i == n_layers_each_side ? 1 : (i % 2 == 1 ? 4 : 2);
        sum += weight * y * stress_at(path, std::log1p(y / mid_radius));
    }
    return sum * std::abs(step) / 3;
}

} // namespace

std::vector<FibrePoint> stretch_in_plane_strain(
    const material::SheetMaterial& material, double largest_strain, int n_steps, double grain
) {
    check(material.hardening != nullptr, "a sheet has a hardening law");
    const std::shared_ptr<const material::HardeningLaw> flow =
        material::steady_flow(material.hardening, material.back_stresses);
    check(largest_strain > 0 && n_steps > 0, "a fibre is stretched in at least one step");
    if (material.yield) {
        return stretched_by_law(material, *flow, grain, largest_strain / n_steps, n_steps);
    }
    const Elastic elastic = elastic_of(material);
    std::vector<FibrePoint> path{FibrePoint{}};
    path.reserve(static_cast<std::size_t>(n_steps) + 1);
    for (int i = 0; i < n_steps; ++i) {
        const double step = largest_strain / n_steps;
        path.push_back(stretched_further(path.back(), step, elastic, *flow));
    }
    return path;
}

BentStrip bend_strip(
    const material::SheetMaterial& material, double thickness, double mid_radius, double grain
) {
    check(thickness > 0 && mid_radius > 0.5 * thickness, "the inside radius of a bend is positive");
    const double t = thickness;
    const double R = mid_radius;
    const double E = material.youngs_modulus;
    const double nu = material.poisson_ratio;
    // The inside fibre is the one strained most: its log strain is larger in size than the outer's.
    const double most = -std::log1p(-0.5 * t / R);
    const std::vector<FibrePoint> path =
        stretch_in_plane_strain(material, most, n_path_steps, grain);

    BentStrip strip;
    strip.moment = half_moment(path, R, 0.5 * t) + half_moment(path, R, -0.5 * t);
    strip.curvature_loss = 12 * strip.moment * (1 - nu * nu) / (E * t * t * t);
    strip.springback_per_angle = R * strip.curvature_loss;
    strip.outer_strain = std::log1p(0.5 * t / R);
    strip.outer_stress = stress_at(path, strip.outer_strain);
    strip.outer_stress_released = strip.outer_stress - 6 * strip.moment / (t * t);
    return strip;
}

} // namespace flangewright::findings
