#include "solver/shell/shell_model.hpp"

#include "mesh/base/check.hpp"
#include "mesh/base/parallel.hpp"

#include <atomic>
#include <cmath>
#include <utility>

namespace flangewright::shell {

namespace {

// The local axes follow the bend line, the rolling direction does not.
material::RollingTurn rolling_turn(const QuadReference& reference, const Eigen::Vector3d& rolling) {
    const Eigen::Vector3d local = reference.axes * rolling;
    return material::RollingTurn::by(std::atan2(local[1], local[0]));
}

} // namespace

ShellModel make_shell_model(
    Section section,
    Eigen::Matrix3Xd positions,
    Eigen::Matrix3Xd directors,
    std::vector<std::array<int, 4>> quads,
    const AlongField& along
) {
    check(
        section.yield == nullptr || section.back_stresses.empty(),
        "a rolled sheet has no back stresses"
    );
    ShellModel model;
    model.section = std::move(section);
    model.start_positions = std::move(positions);
    model.start_directors = std::move(directors);
    model.quads = std::move(quads);
    model.node_area = Eigen::VectorXd::Zero(model.n_nodes());
    model.references.reserve(model.quads.size());
    for (const std::array<int, 4>& quad : model.quads) {
        const QuadNodes nodes = gather_nodes(quad, model.start_positions, model.start_directors);
        model.references.push_back(
            make_quad_reference(nodes, along(nodes.positions.rowwise().mean()))
        );
        model.references.back().rolling =
            rolling_turn(model.references.back(), model.section.rolling_direction);
        double area = 0;
        for (const QuadReference::Point& point : model.references.back().points) {
            area += point.area;
        }
        for (const int node : quad) {
            model.node_area[node] += 0.25 * area;
        }
    }
    return model;
}

SheetState virgin_state(const ShellModel& model) {
    SheetState state;
    state.positions = model.start_positions;
    state.directors = model.start_directors;
    const auto n_points = 4 * model.quads.size();
    state.fibres.resize(n_points);
    const std::size_t n_layers = n_points * static_cast<std::size_t>(model.section.n_layers());
    state.points.resize(n_layers);
    state.back_stresses.resize(
        n_layers * model.section.back_stresses.size(), material::SplitStress::Zero()
    );
    return state;
}

QuadNodes gather_nodes(
    const std::array<int, 4>& quad,
    const Eigen::Matrix3Xd& positions,
    const Eigen::Matrix3Xd& directors
) {
    QuadNodes nodes;
    for (int n = 0; n < 4; ++n) {
        const int node = quad[static_cast<std::size_t>(n)];
        nodes.positions.col(n) = positions.col(node);
        nodes.directors.col(n) = directors.col(node);
    }
    return nodes;
}

QuadPoints points_of(const ShellModel& model, const SheetState& state, std::size_t element) {
    const auto n_points = 4 * static_cast<std::size_t>(model.section.n_layers());
    const std::size_t n_shifts = n_points * model.section.back_stresses.size();
    return {
        std::span(state.fibres).subspan(4 * element, 4),
        std::span(state.points).subspan(element * n_points, n_points),
        std::span(state.back_stresses).subspan(element * n_shifts, n_shifts),
    };
}

Eigen::VectorXd half_thickness(const ShellModel& model, const SheetState& state) {
    Eigen::VectorXd sum = Eigen::VectorXd::Zero(model.n_nodes());
    for (std::size_t e = 0; e < model.quads.size(); ++e) {
        for (std::size_t n = 0; n < 4; ++n) {
            const double share = model.references[e].points[n].area;
            sum[model.quads[e][n]] += share * state.fibres[4 * e + n].mean;
        }
    }
    Eigen::VectorXd weight = Eigen::VectorXd::Zero(model.n_nodes());
    for (std::size_t e = 0; e < model.quads.size(); ++e) {
        for (std::size_t n = 0; n < 4; ++n) {
            weight[model.quads[e][n]] += model.references[e].points[n].area;
        }
    }
    return 0.5 * model.section.thickness * sum.cwiseQuotient(weight);
}

bool visit_points(
    const ShellModel& model,
    SheetState& state,
    int n_threads,
    const std::function<bool(const PointView&)>& visit
) {
    const auto n_layers = static_cast<std::size_t>(model.section.n_layers());
    const std::size_t n_shifts = n_layers * model.section.back_stresses.size();
    std::atomic<bool> is_good = true;
    for_each_index(model.n_elements(), n_threads, [&](int e) {
        const auto at = static_cast<std::size_t>(e);
        const QuadNodes nodes = gather_nodes(model.quads[at], state.positions, state.directors);
        for (int point = 0; point < 4; ++point) {
            const std::size_t fibre = 4 * at + static_cast<std::size_t>(point);
            const PointView view{
                quad_strain(model.references[at], nodes, point),
                state.fibres[fibre],
                std::span(state.points).subspan(fibre * n_layers, n_layers),
                std::span(state.back_stresses).subspan(fibre * n_shifts, n_shifts)};
            if (!visit(view)) {
                is_good = false;
            }
        }
    });
    return is_good;
}

bool remember_shape(const ShellModel& model, SheetState& state, int n_threads) {
    return visit_points(model, state, n_threads, [&model](const PointView& point) {
        return remember_section(
            model.section, point.strain, point.fibre, point.memory, point.back_stresses
        );
    });
}

} // namespace flangewright::shell
