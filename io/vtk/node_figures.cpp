#include "io/vtk/node_figures.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::vtk {

namespace {

constexpr double on_line = 1e-9;

/// Allowed stretch at a place the verdict looked at.
std::optional<double> allowed_at(const findings::Verdict& verdict, const std::string& place) {
    for (const findings::LimitUse& limit : verdict.limits) {
        if (limit.place == place && limit.allowed && *limit.allowed > 0) {
            return limit.allowed;
        }
    }
    return std::nullopt;
}

// The lip's bend may stretch either face.
double across_stretched_face(const process::StepResult& step, int node) {
    const double outer = step.fields.across_outer_face(node);
    return step.findings.lip ? std::max(outer, step.fields.across_block_face(node)) : outer;
}

/// Nodes that a limit of a cut edge stands for: all while necks were not looked for.
std::vector<bool> judged_as_edge(const grid::SheetMesh& mesh, const process::StepResult& step) {
    const auto n_nodes = static_cast<std::size_t>(mesh.n_nodes());
    if (step.neck_shares.size() != mesh.n_nodes()) {
        return std::vector<bool>(n_nodes, true);
    }
    std::vector<bool> is_edge(n_nodes, false);
    for (const std::vector<int>* edge : {&mesh.free_edge, &mesh.web_edge}) {
        for (const int node : *edge) {
            is_edge[static_cast<std::size_t>(node)] = true;
        }
    }
    for (const grid::Rim& rim : mesh.rims) {
        for (const int node : rim.nodes) {
            is_edge[static_cast<std::size_t>(node)] = true;
        }
    }
    return is_edge;
}

} // namespace

Eigen::VectorXd thinning(const job::Job& job, const shell::SheetFields& fields) {
    return 1.0 - fields.thickness.array() / job.sheet.thickness;
}

std::optional<Eigen::Matrix3Xd> springback(const process::JobResult& result, std::size_t step) {
    if (step == 0 || result.steps[step].kind != job::StepKind::release) {
        return std::nullopt;
    }
    const Eigen::Matrix3Xd& held = result.steps[step - 1].state.positions;
    const Eigen::Matrix3Xd& now = result.steps[step].state.positions;
    if (held.cols() != now.cols()) {
        return std::nullopt;
    }
    return now - held;
}

Eigen::VectorXd
block_gap(const job::Job& job, const grid::SheetMesh& mesh, const process::StepResult& step) {
    Eigen::VectorXd gap = Eigen::VectorXd::Zero(mesh.n_nodes());
    const bool knows_thickness = step.fields.thickness.size() == mesh.n_nodes();
    const bool knows_directors = step.state.directors.cols() == mesh.n_nodes();
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        if (mesh.distance(node) > on_line) {
            continue;
        }
        const double thick = knows_thickness ? step.fields.thickness(node) : job.sheet.thickness;
        const double upright = knows_directors ? step.state.directors(2, node) : 1;
        gap(node) = step.state.positions(2, node) - 0.5 * thick * upright;
    }
    return gap;
}

std::optional<Eigen::VectorXd> share_used(const process::JobResult& result, std::size_t index) {
    const auto softens = [](const process::StepResult& step) {
        return step.kind == job::StepKind::anneal || step.kind == job::StepKind::heat_treat;
    };
    const auto begin = result.steps.begin();
    if (std::any_of(begin, begin + static_cast<std::ptrdiff_t>(index) + 1, softens)) {
        return std::nullopt; // the stretch since flat says nothing any more
    }
    const process::StepResult& step = result.steps[index];
    const std::optional<double> edge = allowed_at(result.verdict, "free edge");
    const std::optional<double> bend = allowed_at(result.verdict, "outer fibre of the bend");
    const grid::SheetMesh& mesh = process::mesh_of(result, index);
    const bool has_fields = step.fields.major_mid.size() == mesh.n_nodes()
        && step.fields.across_outer_face.size() == mesh.n_nodes();
    if ((!edge && !bend) || !has_fields) {
        return std::nullopt;
    }
    const bool knows_necks = step.neck_shares.size() == mesh.n_nodes();
    Eigen::VectorXd share =
        knows_necks ? step.neck_shares : Eigen::VectorXd::Zero(mesh.n_nodes()).eval();
    const std::vector<bool> is_edge = judged_as_edge(mesh, step);
    const double bend_end = bend_width(mesh);
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        const double distance = mesh.distance(node);
        if (edge && is_edge[static_cast<std::size_t>(node)]) {
            const double stretch = std::expm1(step.fields.major_mid(node)) / *edge;
            share(node) = std::max(share(node), stretch);
        }
        if (bend && distance >= -on_line && (distance <= bend_end + on_line || step.findings.lip)) {
            const double fibre = std::expm1(across_stretched_face(step, node)) / *bend;
            share(node) = std::max(share(node), fibre);
        }
    }
    return share.cwiseMax(0);
}

double bend_width(const grid::SheetMesh& mesh) {
    return mesh.bend_end.empty() ? 0 : mesh.distance(mesh.bend_end.front());
}

} // namespace flangewright::vtk
