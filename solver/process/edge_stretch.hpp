// A small plastic stretch or shrink put into the flange's edge, zone by zone, as a hand tool does.
#pragma once

#include "solver/process/workpiece.hpp"

#include <Eigen/Core>

#include <vector>

namespace flangewright::process {

/// A piece of the flange's edge that is worked as one. Stations in mm.
struct EdgeZone {
    double from = 0;
    double to = 0;
};

/// Equal zones over the whole line, eight at most; none shorter than the flange is deep, which is
/// how far a stretched edge is felt, or than three elements. Units: mm. Source: derived here
/// (docs/theory.md, "Cure of the web"). Fails: never; a short line is one zone.
[[nodiscard]] std::vector<EdgeZone> edge_zones(const Workpiece& piece);

/// How much of each zone's amount a node gets, 0 to 1: 1 at the free edge, falling evenly to 0 over
/// about two thirds of the flange's straight part, to the nearest line of nodes; along the line
/// neighbours blend over half a zone and together make 1. Shape: n_nodes x n_zones.
/// Units: mm. Source: as edge_zones(). Fails: never.
[[nodiscard]] Eigen::MatrixXd
edge_shares(const Workpiece& piece, const std::vector<EdgeZone>& zones);

/// Adds plastic strain, the same through the thickness, as pulling or upsetting along the bend line
/// leaves it: `amount` (engineering) along, and what keeps the volume, halved, across and through
/// the thickness. It hardens the sheet; back stresses stay. `amount` is per node.
/// Units: -. Source: uniaxial flow, derived here (docs/theory.md, "Cure of the web"). Fails: never.
void add_edge_strain(
    const shell::ShellModel& model, const Eigen::VectorXd& amount, shell::SheetState& state
);

} // namespace flangewright::process
