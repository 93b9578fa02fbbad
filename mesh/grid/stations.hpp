// Where a blank has its lines of nodes square to the bend line.
#pragma once

#include "mesh/grid/blank_mesher.hpp"

#include <vector>

namespace flangewright::grid {

/// Stations from 0 to the line's length, growing. No element is longer or turns more than the blank
/// asks for; where the curvature changes by much, and at a corner of the free edge, a station lies
/// there, unless it would cut off less than half an element; a long element has no neighbour
/// shorter than two thirds of it. A line of one curvature is divided evenly. Units: mm. Source:
/// derived here (docs/theory.md, "Mesh"). Fails: never.
[[nodiscard]] std::vector<double> stations_along(const BlankGrid& blank);

} // namespace flangewright::grid
