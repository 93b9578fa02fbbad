#include "io/vtk/node_figures.hpp"

#include "mesh/grid/nodes_left.hpp"
#include "solver/findings/edge_strain.hpp"
#include "solver/findings/verdict.hpp"

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

/// The last step up to `index` that made the sheet soft; none: as bought.
std::optional<std::size_t> last_soft(const process::JobResult& result, std::size_t index) {
    std::optional<std::size_t> soft;
    for (std::size_t i = 0; i <= index; ++i) {
        const job::StepKind kind = result.steps[i].kind;
        if (kind == job::StepKind::anneal || kind == job::StepKind::heat_treat) {
            soft = i;
        }
    }
    return soft;
}

bool has_fields(const process::StepResult& step, const grid::SheetMesh& mesh) {
    return step.fields.major_mid.size() == mesh.n_nodes()
        && step.fields.across_outer_face.size() == mesh.n_nodes()
        && step.fields.across_block_face.size() == mesh.n_nodes();
}

/// A shape in which the sheet was soft, at the nodes that are left of it.
struct SoftShape {
    Eigen::Matrix3Xd positions;
    Eigen::VectorXd across_outer_face;
    Eigen::VectorXd across_block_face;
};

/// Nothing where that step's fields were not kept.
std::optional<SoftShape>
soft_shape(const process::JobResult& result, std::size_t soft, const grid::SheetMesh& mesh) {
    const process::StepResult& step = result.steps[soft];
    const grid::SheetMesh& then = process::mesh_of(result, soft);
    if (!has_fields(step, then)) {
        return std::nullopt;
    }
    const std::vector<int> left = grid::nodes_left(then, mesh);
    return SoftShape{
        step.state.positions(Eigen::all, left),
        step.fields.across_outer_face(left),
        step.fields.across_block_face(left)};
}

/// Of nodes that a cut edge's limit stands for; 0 elsewhere.
Eigen::VectorXd edge_stretch(const grid::SheetMesh& mesh, const process::StepResult& step) {
    const std::vector<bool> is_edge = judged_as_edge(mesh, step);
    Eigen::VectorXd stretch = Eigen::VectorXd::Zero(mesh.n_nodes());
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        if (is_edge[static_cast<std::size_t>(node)]) {
            stretch(node) = std::expm1(step.fields.major_mid(node));
        }
    }
    return stretch;
}

/// Along free edge and rims, from where the sheet was soft; 0 elsewhere. Log strains of one
/// direction add up.
Eigen::VectorXd edge_stretch_since(
    const grid::SheetMesh& mesh,
    const job::Job& job,
    const SoftShape& soft,
    const process::StepResult& step
) {
    Eigen::VectorXd stretch = Eigen::VectorXd::Zero(mesh.n_nodes());
    const auto set = [&stretch](const std::vector<int>& nodes, const Eigen::VectorXd& strain) {
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            stretch(nodes[i]) =
                std::max(stretch(nodes[i]), std::expm1(strain(static_cast<Eigen::Index>(i))));
        }
    };
    const findings::EdgeEnds ends{job.blank.start, job.blank.end};
    set(mesh.free_edge,
        findings::edge_strain(mesh, step.state.positions, ends)
            - findings::edge_strain(mesh, soft.positions, ends));
    for (const grid::Rim& rim : mesh.rims) {
        set(rim.nodes,
            findings::rim_strain(mesh, rim, step.state.positions)
                - findings::rim_strain(mesh, rim, soft.positions));
    }
    return stretch;
}

/// Of the face that the bend stretches, from flat or from where the sheet was soft; 0 elsewhere.
Eigen::VectorXd
bend_stretch(const grid::SheetMesh& mesh, const SoftShape* soft, const process::StepResult& step) {
    Eigen::VectorXd stretch = Eigen::VectorXd::Zero(mesh.n_nodes());
    const double bend_end = bend_width(mesh);
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        const double distance = mesh.distance(node);
        if (distance < -on_line || (distance > bend_end + on_line && !step.findings.lip)) {
            continue;
        }
        double outer = step.fields.across_outer_face(node);
        double block = step.fields.across_block_face(node);
        if (soft != nullptr) {
            outer -= soft->across_outer_face(node);
            block -= soft->across_block_face(node);
        }
        // The lip's bend may stretch either face.
        stretch(node) = std::expm1(step.findings.lip ? std::max(outer, block) : outer);
    }
    return stretch;
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

std::optional<Eigen::VectorXd>
share_used(const job::Job& job, const process::JobResult& result, std::size_t index) {
    const process::StepResult& step = result.steps[index];
    const grid::SheetMesh& mesh = process::mesh_of(result, index);
    const std::optional<std::size_t> made_soft = last_soft(result, index);
    const std::optional<SoftShape> soft =
        made_soft ? soft_shape(result, *made_soft, mesh) : std::nullopt;
    if (!has_fields(step, mesh) || (made_soft && !soft)) {
        return std::nullopt;
    }
    const std::optional<double> edge = allowed_at(result.verdict, findings::edge_place);
    const std::optional<double> bend = allowed_at(result.verdict, findings::bend_place);
    const std::optional<double> thinned = allowed_at(result.verdict, findings::thickness_place);
    if (!edge && !bend && !thinned) {
        return std::nullopt;
    }
    const bool knows_necks = step.neck_shares.size() == mesh.n_nodes();
    Eigen::VectorXd share =
        knows_necks ? step.neck_shares : Eigen::VectorXd::Zero(mesh.n_nodes()).eval();
    if (edge && !soft) {
        share = share.cwiseMax(edge_stretch(mesh, step) / *edge);
    } else if (edge) {
        share = share.cwiseMax(edge_stretch_since(mesh, job, *soft, step) / *edge);
    }
    if (bend) {
        share = share.cwiseMax(bend_stretch(mesh, soft ? &*soft : nullptr, step) / *bend);
    }
    if (thinned) {
        share = share.cwiseMax(thinning(job, step.fields) / *thinned);
    }
    return share.cwiseMax(0);
}

double bend_width(const grid::SheetMesh& mesh) {
    return mesh.bend_end.empty() ? 0 : mesh.distance(mesh.bend_end.front());
}

} // namespace flangewright::vtk
