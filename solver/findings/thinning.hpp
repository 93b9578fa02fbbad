// Where the sheet has become thinnest.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"

#include <Eigen/Core>

namespace flangewright::findings {

/// The thinnest place of the part.
struct Thinnest {
    double thinning = 0; ///< 1 - t/t0; negative when the whole sheet has become thicker
    double station = 0; ///< mm
    double distance = 0; ///< flat, past the bend tangent, mm
};

/// Units: mm. Source: design definition (docs/theory-findings.md, "Thinning"). Fails: never.
[[nodiscard]] Thinnest thinnest_place(
    const grid::SheetMesh& mesh,
    const Eigen::Ref<const Eigen::VectorXd>& thickness,
    double flat_thickness
);

/// Smallest thickness along one station line. Units: mm. Source: none needed. Fails: never.
[[nodiscard]] double least_thickness(
    const grid::SheetMesh& mesh,
    const Eigen::Ref<const Eigen::VectorXd>& thickness,
    int station_line
);

} // namespace flangewright::findings
