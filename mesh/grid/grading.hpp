// How a blank is divided square to its bend line: evenly round the nose, coarser away from it.
#pragma once

#include "mesh/grid/blank_mesher.hpp"
#include "mesh/grid/gmsh_session.hpp"

#include <vector>

namespace flangewright::grid {

/// A strip of the blank between two distances from the bend tangent, mm.
struct Band {
    double begin = 0;
    double end = 0;
    Division division;
};

/// Flat width that is left when the blank is cut, if it is. Units: mm. Source: none needed. Fails:
/// never.
[[nodiscard]] inline double kept_width(const BlankGrid& blank) {
    return blank.cut_width > 0 ? blank.cut_width : blank.flange_width;
}

/// Where a row of nodes lies at a station, by its distance where the flange is widest: rows up to
/// the bend's end stay, those of the flange are drawn together up to the cut, and past it all keep
/// off the edge as far. Units: mm. Source: derived here (docs/theory.md, "Mesh"). Fails: never.
[[nodiscard]] double row_distance(const BlankGrid& blank, double row, double station);

/// Bands from web edge to free edge, without gaps. Units: mm. Source: derived here
/// (docs/theory.md, "Mesh"). Fails: never.
[[nodiscard]] std::vector<Band> bands_across(const BlankGrid& blank);

/// Distances of all lines of nodes along the bend line, growing. Units: mm. Source: as
/// bands_across(). Fails: never.
[[nodiscard]] std::vector<double> distances_across(const std::vector<Band>& bands);

} // namespace flangewright::grid
