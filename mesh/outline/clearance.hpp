// Whether a bend line, and the strips of blank on both its sides, keep clear of themselves.
#pragma once

#include "mesh/outline/bend_line.hpp"

#include <cstddef>
#include <optional>

namespace flangewright::outline {

/// Two places of a line that meet, by the numbers of their pieces from 0.
struct Meeting {
    std::size_t piece = 0;
    std::size_t other = 0;
    double distance = 0; ///< of the meeting place from `piece`, mm; 0: the line itself
};

/// Where the line crosses itself. Units: mm. Source: derived here. Fails: never; loops smaller than
/// a fiftieth of a piece are not seen.
[[nodiscard]] std::optional<Meeting> find_self_crossing(const BendLine& line);

/// Where the blank would lie over itself: a place at most `web_width` to the one side or
/// `flange_width` to the other that lies nearer to another part of the line. Only where there is
/// none is BendLine::locate() the inverse of point() all over the blank.
/// Units: mm. Source: derived here. Fails: never; seen at sampled places.
[[nodiscard]] std::optional<Meeting>
find_overlap(const BendLine& line, double web_width, double flange_width);

} // namespace flangewright::outline
