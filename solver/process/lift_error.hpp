// What the mesh across the bend leaves open in the web lift: sections turned as a finer mesh has
// them.
#pragma once

#include "solver/process/workpiece.hpp"

#include <vector>

namespace flangewright::process {

/// How the web of one section stands, from its edge to the bend tangent. mm.
struct WebSection {
    std::vector<double> distance; ///< flat, past the bend tangent: growing, the last one 0
    std::vector<double> height; ///< of the mid-surface over that of the bend tangent
};

/// Of the piece's first station line. Units: mm. Source: none needed. Fails: never.
[[nodiscard]] WebSection web_section(const Workpiece& piece);

/// How far the lift of the free part moves, up or down, when every section of its web is turned
/// and bent by a third more than a slice does between its own mesh and one twice as fine
/// (Richardson, second order). Turned alike all along, a part bends out of its plane by that angle
/// times the line's curvature, without a twist: what a wrong hoop force does. 0 where a section is
/// empty. Units: mm. Source: derived here (docs/theory.md, "Error of the mesh"). Fails: never.
[[nodiscard]] double
lift_error(const Workpiece& part, const WebSection& as_run, const WebSection& finer);

} // namespace flangewright::process
