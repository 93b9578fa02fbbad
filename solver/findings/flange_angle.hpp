// The straight part of the flange at a station, fitted, and the angle it makes with the web.
#pragma once

#include "mesh/grid/sheet_mesh.hpp"
#include "solver/findings/part_shape.hpp"
#include "solver/job/job.hpp"

namespace flangewright::findings {

/// The stretch of flat distance past the bend tangent whose nodes are fitted, mm.
struct FitWindow {
    double begin = 0;
    double end = 0;
};

/// The flange at one station as a straight line in the section, running toward the free edge.
struct FlangeLine {
    Eigen::Vector2d point = Eigen::Vector2d::Zero(); ///< outward, height
    Eigen::Vector2d direction = Eigen::Vector2d::UnitX(); ///< unit, toward the free edge
    double thickness = 0; ///< mean over the nodes used, mm
    int n_nodes = 0; ///< nodes used
    bool is_sparse = false; ///< fewer than three nodes in the window, or nodes from outside it
};

/// 40 to 90 per cent of a straight part's flat length. Units: mm. Source, fails: as fit_window().
[[nodiscard]] FitWindow straight_window(double begin, double end);

/// 40 to 90 per cent of the flat length past the end of the bend, up to where a lip's bend begins
/// or will begin, at a station (of a flange of one width: any). Units: mm. Source: design
/// definition (docs/theory-findings.md, "Flange angle"). Fails: never; without a straight part the
/// window is empty.
[[nodiscard]] FitWindow fit_window(const job::Job& job, double station = 0);

/// Least-squares line (least square distance) through the mid-surface nodes of one station line
/// inside the window. Fewer than two there: the last two nodes of the line are used.
/// Units: mm. Source: design definition (docs/theory-findings.md, "Flange angle"). Fails: never;
/// a line of fewer than two nodes is a caller's bug.
[[nodiscard]] FlangeLine fit_flange_line(
    const grid::SheetMesh& mesh,
    const PartShape& shape,
    const Section& section,
    int station_line,
    const FitWindow& window
);

/// Angle turned through from the web plane: 0 flat, pi/2 square, more when it leans back over the
/// block; from -pi/2 to 3 pi/2. Units: rad. Source: design definition (docs/theory-findings.md,
/// "Flange angle"). Fails: never.
[[nodiscard]] double flange_angle(const FlangeLine& line);

} // namespace flangewright::findings
