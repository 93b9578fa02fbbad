#include "tests/support/formed_strip.hpp"

#include <numbers>

namespace flangewright::support {

namespace {

constexpr double width = 1; // of the strip

// Spaced evenly at first, then ever wider toward `end`.
void grow_to(std::vector<double>& places, double end, const StripMesh& mesh) {
    const double sign = end > places.back() ? 1 : -1;
    double step = mesh.spacing;
    while (sign * (end - places.back()) > 1e-9) {
        step = std::min(1.3 * step, mesh.widest);
        const bool is_last = std::abs(end - places.back()) < 1.5 * step;
        places.push_back(is_last ? end : places.back() + sign * step);
    }
}

MappedPatch strip_patch(const std::vector<double>& columns, double thickness) {
    const int n = static_cast<int>(columns.size()) - 1;
    return map_patch(1, n, [&](double along, double across) {
        const auto column = static_cast<std::size_t>(std::lround(across * n));
        return Eigen::Vector3d(width * along, columns[column], 0.5 * thickness);
    });
}

} // namespace

std::vector<double> strip_columns(const StripMesh& mesh) {
    const int n = static_cast<int>(std::lround((mesh.fine_end - mesh.fine_begin) / mesh.spacing));
    std::vector<double> places;
    for (int i = n; i >= 0; --i) {
        places.push_back(mesh.fine_begin + (mesh.fine_end - mesh.fine_begin) * i / n);
    }
    grow_to(places, 0, mesh);
    std::reverse(places.begin(), places.end());
    grow_to(places, mesh.length, mesh);
    return places;
}

FormedStrip::FormedStrip(shell::Section section, const StripMesh& mesh)
    : trial_(section, strip_patch(strip_columns(mesh), section.thickness)),
      columns_(strip_columns(mesh)) {
    for (int node = 0; node < trial_.model.n_nodes(); ++node) {
        trial_.fix(node, 0);
        trial_.fix(node, 3);
    }
    for (int i = 0; i <= 1; ++i) {
        trial_.fix(trial_.patch.node(i, 0), 1);
        trial_.fix(trial_.patch.node(i, 0), 4);
    }
}

equilibrium::PathReport FormedStrip::form(
    const std::vector<StripTool>& tools,
    double friction,
    const std::function<void(double share)>& move
) {
    // As solver/process chooses for the flange.
    const double unit =
        trial_.model.section.elasticity.youngs_modulus / trial_.model.section.thickness;
    constexpr double ramp = 0.01;
    constexpr double stick_factor = 0.1;
    std::vector<int> nodes;
    for (int node = 0; node < trial_.model.n_nodes(); ++node) {
        nodes.push_back(node);
    }
    trial_.problem.contacts.clear();
    for (const StripTool& tool : tools) {
        trial_.problem.contacts.push_back(
            {outline::BendLine::straight(width),
             tool.surface,
             {unit, ramp},
             tool.face,
             nodes,
             friction,
             stick_factor * unit}
        );
    }
    equilibrium::Path path;
    path.set = [&move](equilibrium::Problem&, double share) { move(share); };
    path.may_move = true;
    equilibrium::PathLimits limits;
    limits.first_step = 0.0005;
    limits.newton.tolerance = 1e-3; // on the way, as bend-down
    const equilibrium::Balancer balancer{trial_.system, trial_.solver, 1};
    equilibrium::PathReport report =
        equilibrium::follow_path(balancer, trial_.problem, trial_.state, path, limits, {});
    if (report.end == equilibrium::PathEnd::done) {
        limits.newton.tolerance = equilibrium::NewtonLimits{}.tolerance;
        equilibrium::settle(balancer, trial_.problem, trial_.state, limits.newton, report);
    }
    trial_.problem.half_thickness = shell::half_thickness(trial_.model, trial_.state);
    penetration_ = equilibrium::deepest_penetration(
        trial_.problem, equilibrium::shape_of(trial_.state, trial_.problem.node_axes)
    );
    return report;
}

equilibrium::PathReport FormedStrip::release() {
    equilibrium::Problem& problem = trial_.problem;
    const equilibrium::DeadLoads full =
        equilibrium::tool_forces(problem, equilibrium::shape_of(trial_.state, problem.node_axes));
    problem.contacts.clear();
    problem.friction.clear();
    for (int i = 0; i <= 1; ++i) {
        trial_.fix(trial_.patch.node(i, 0), 2);
    }
    equilibrium::PathLimits limits;
    limits.first_step = limits.largest_step = 0.1;
    limits.largest_turn = 0.2;
    limits.newton.largest_turn = 0.5;
    equilibrium::PathReport report = trial_.load(full, 1, 0, limits);
    if (report.end == equilibrium::PathEnd::done) {
        equilibrium::settle(
            {trial_.system, trial_.solver, 1}, problem, trial_.state, limits.newton, report
        );
    }
    return report;
}

Eigen::Vector2d FormedStrip::middle(double flat_distance) const {
    const auto after = std::upper_bound(columns_.begin() + 1, columns_.end() - 1, flat_distance);
    const auto j = static_cast<int>(after - columns_.begin());
    const double from = *(after - 1);
    const double share = (flat_distance - from) / (*after - from);
    const Eigen::Vector3d place =
        (1 - share) * trial_.state.positions.col(trial_.patch.node(0, j - 1))
        + share * trial_.state.positions.col(trial_.patch.node(0, j));
    return place.tail<2>();
}

double slope_deg(const Eigen::Vector2d& from, const Eigen::Vector2d& to) {
    return std::atan2(to[1] - from[1], to[0] - from[0]) * 180 / std::numbers::pi;
}

double
curvature_through(const Eigen::Vector2d& a, const Eigen::Vector2d& b, const Eigen::Vector2d& c) {
    const Eigen::Vector2d u = b - a;
    const Eigen::Vector2d v = c - a;
    return 2 * (u[0] * v[1] - u[1] * v[0]) / (u.norm() * v.norm() * (c - b).norm());
}

} // namespace flangewright::support
