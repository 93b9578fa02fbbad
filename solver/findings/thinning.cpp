#include "solver/findings/thinning.hpp"

#include "mesh/base/check.hpp"

#include <algorithm>
#include <limits>

namespace flangewright::findings {

Thinnest thinnest_place(
    const grid::SheetMesh& mesh,
    const Eigen::Ref<const Eigen::VectorXd>& thickness,
    double flat_thickness
) {
    check(thickness.size() > 0 && flat_thickness > 0, "the part has a thickness");
    Eigen::Index node = 0;
    const double least = thickness.minCoeff(&node);
    return {1 - least / flat_thickness, mesh.station(node), mesh.distance(node)};
}

double least_thickness(
    const grid::SheetMesh& mesh,
    const Eigen::Ref<const Eigen::VectorXd>& thickness,
    int station_line
) {
    double least = std::numeric_limits<double>::infinity();
    for (const int node : mesh.station_lines[static_cast<std::size_t>(station_line)]) {
        least = std::min(least, thickness(node));
    }
    return least;
}

} // namespace flangewright::findings
