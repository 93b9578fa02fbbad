// Looks a station figure up at any place along the bend line.
#pragma once

#include "solver/findings/findings.hpp"

#include <vector>

namespace flangewright::tables {

/// The figure `member` at `station`, straight between the two stations around it and constant
/// beyond the ends; 0 when there are no stations. Units: station in mm, result as the figure.
/// Source: none needed. Fails: never.
[[nodiscard]] double figure_at(
    const std::vector<findings::StationFindings>& stations,
    double station,
    double findings::StationFindings::*member
);

} // namespace flangewright::tables
