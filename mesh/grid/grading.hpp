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

/// Where the rows end that lie alike all along: the bend's end, of two bends the second one's.
/// Units: mm. Source: none needed. Fails: never.
[[nodiscard]] inline double alike_width(const BlankGrid& blank) {
    return blank.second_bend_begin > 0 ? blank.second_bend_begin + blank.second_bend_width
                                       : blank.bend_width;
}

/// Flat width at a station. Units: mm. Source: none needed. Fails: never.
[[nodiscard]] inline double width_at(const BlankGrid& blank, double station) {
    return blank.flange_widths.is_empty() ? blank.flange_width : blank.flange_widths.at(station);
}

/// Where a row of nodes lies at a station, by its distance where the flange is widest: rows up to
/// the last bend's end stay, those past it are drawn together up to the cut, and past that all keep
/// off the edge as far. Units: mm. Source: derived here (docs/theory.md, "Mesh"). Fails: never.
[[nodiscard]] double row_distance(const BlankGrid& blank, double row, double station);

/// The row that lies at a distance there: the other way round. Units: mm. Source: as
/// row_distance(). Fails: never.
[[nodiscard]] double row_at(const BlankGrid& blank, double distance, double station);

/// Bands from web edge to free edge, without gaps. Units: mm. Source: derived here
/// (docs/theory.md, "Mesh"). Fails: never.
[[nodiscard]] std::vector<Band> bands_across(const BlankGrid& blank);

/// Distances of all lines of nodes along the bend line, growing. Units: mm. Source: as
/// bands_across(). Fails: never.
[[nodiscard]] std::vector<double> distances_across(const std::vector<Band>& bands);

} // namespace flangewright::grid
