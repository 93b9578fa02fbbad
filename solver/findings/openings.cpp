#include "solver/findings/openings.hpp"

#include "mesh/base/check.hpp"
#include "solver/findings/edge_strain.hpp"

#include <algorithm>
#include <cstddef>

namespace flangewright::findings {

namespace {

/// Smallest and largest distance of nodes that lie opposite each other.
void add_diameters(
    OpeningFindings& found,
    const std::vector<int>& nodes,
    const Eigen::Ref<const Eigen::Matrix3Xd>& positions
) {
    const std::size_t half = nodes.size() / 2;
    for (std::size_t i = 0; i < half; ++i) {
        const double across = (positions.col(nodes[i]) - positions.col(nodes[i + half])).norm();
        found.least_diameter = std::min(found.least_diameter.value_or(across), across);
        found.most_diameter = std::max(found.most_diameter.value_or(across), across);
    }
}

} // namespace

OpeningKind opening_kind(grid::Rim::Kind kind) {
    switch (kind) {
    case grid::Rim::Kind::hole:
        return OpeningKind::hole;
    case grid::Rim::Kind::notch:
        return OpeningKind::notch;
    case grid::Rim::Kind::tab_side:
        break;
    }
    return OpeningKind::tab;
}

std::vector<OpeningFindings>
find_openings(const grid::SheetMesh& mesh, const Eigen::Ref<const Eigen::Matrix3Xd>& positions) {
    std::vector<OpeningFindings> openings;
    for (const grid::Rim& rim : mesh.rims) {
        OpeningFindings found;
        found.kind = opening_kind(rim.kind);
        found.number = static_cast<int>(rim.number) + 1;
        Eigen::Index at = 0;
        found.tension_most = rim_strain(mesh, rim, positions).maxCoeff(&at);
        found.tension_used = found.tension_most;
        const int node = rim.nodes[static_cast<std::size_t>(at)];
        found.station = mesh.station[node];
        found.distance = mesh.distance[node];
        if (rim.kind == grid::Rim::Kind::hole) {
            add_diameters(found, rim.nodes, positions);
        }
        openings.push_back(found);
    }
    return openings;
}

void count_openings_from_soft(
    std::vector<OpeningFindings>& openings,
    const grid::SheetMesh& mesh,
    const Eigen::Ref<const Eigen::Matrix3Xd>& positions,
    const Eigen::Ref<const Eigen::Matrix3Xd>& soft_positions
) {
    check(openings.size() == mesh.rims.size(), "each opening has its findings");
    for (std::size_t i = 0; i < openings.size(); ++i) {
        const Eigen::VectorXd since = rim_strain(mesh, mesh.rims[i], positions)
            - rim_strain(mesh, mesh.rims[i], soft_positions);
        openings[i].tension_used = since.maxCoeff();
    }
}

} // namespace flangewright::findings
