#include "mesh/grid/outlines.hpp"

#include <cstddef>

namespace flangewright::grid {

std::vector<std::vector<int>> edge_runs(const SheetMesh& mesh) {
    std::vector<std::vector<int>> runs(1);
    auto next_break = mesh.edge_breaks.begin();
    for (std::size_t i = 0; i < mesh.free_edge.size(); ++i) {
        runs.back().push_back(mesh.free_edge[i]);
        if (next_break != mesh.edge_breaks.end() && *next_break == i) {
            runs.emplace_back();
            ++next_break;
        }
    }
    return runs;
}

std::vector<int> rim_line(const Rim& rim) {
    std::vector<int> line = rim.nodes;
    if (rim.kind == Rim::Kind::hole && !line.empty()) {
        line.push_back(line.front());
    }
    return line;
}

std::vector<std::vector<int>> outlines(const SheetMesh& mesh) {
    std::vector<std::vector<int>> lines{mesh.web_edge, mesh.far_end, mesh.start_end};
    for (std::vector<int>& run : edge_runs(mesh)) {
        lines.push_back(std::move(run));
    }
    for (const Rim& rim : mesh.rims) {
        lines.push_back(rim_line(rim));
    }
    return lines;
}

} // namespace flangewright::grid
