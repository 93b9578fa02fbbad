#include "io/tables/cut_edge.hpp"

#include "io/tables/along_line.hpp"
#include "mesh/grid/outlines.hpp"
#include "solver/findings/edge_strain.hpp"
#include "solver/findings/openings.hpp"

#include <fmt/format.h>

#include <limits>

namespace flangewright::tables {

namespace {

/// A step cut short may lack fields.
double at_node(const Eigen::VectorXd& field, int node) {
    return node < field.size() ? field(node) : std::numeric_limits<double>::quiet_NaN();
}

void add_free_edge(CutEdge& edge, const process::StepResult& step, const grid::SheetMesh& mesh) {
    int next = 0;
    for (const std::vector<int>& run : grid::edge_runs(mesh)) {
        std::vector<int>& line = edge.lines.emplace_back();
        for (const int node : run) {
            const double station = mesh.station(node);
            edge.nodes.push_back(
                {node,
                 station,
                 figure_at(
                     step.findings.stations, station, &findings::StationFindings::edge_strain
                 ),
                 at_node(step.fields.thickness, node),
                 "free edge"}
            );
            line.push_back(next++);
        }
    }
}

void add_rim(
    CutEdge& edge,
    const process::StepResult& step,
    const grid::SheetMesh& mesh,
    const grid::Rim& rim
) {
    const Eigen::VectorXd strain = findings::rim_strain(mesh, rim, step.state.positions);
    const std::string name =
        fmt::format("{} {}", word_for(findings::opening_kind(rim.kind)), rim.number + 1);
    std::vector<int>& line = edge.lines.emplace_back();
    const int first = static_cast<int>(edge.nodes.size());
    for (std::size_t i = 0; i < rim.nodes.size(); ++i) {
        const int node = rim.nodes[i];
        edge.nodes.push_back(
            {node,
             mesh.station(node),
             strain(static_cast<Eigen::Index>(i)),
             at_node(step.fields.thickness, node),
             name}
        );
        line.push_back(first + static_cast<int>(i));
    }
    if (rim.kind == grid::Rim::Kind::hole) {
        line.push_back(first);
    }
}

} // namespace

CutEdge cut_edge(const process::JobResult& result, std::size_t index) {
    const process::StepResult& step = result.steps[index];
    const grid::SheetMesh& mesh = process::mesh_of(result, index);
    CutEdge edge;
    add_free_edge(edge, step, mesh);
    if (step.state.positions.cols() == mesh.n_nodes()) {
        for (const grid::Rim& rim : mesh.rims) {
            add_rim(edge, step, mesh, rim);
        }
    }
    return edge;
}

} // namespace flangewright::tables
