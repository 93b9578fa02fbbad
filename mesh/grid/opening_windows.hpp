// The rectangles of a mapped blank that are given to unmapped elements round openings.
#pragma once

#include "mesh/grid/blank_mesher.hpp"
#include "mesh/grid/marked_lines.hpp"

#include <cstddef>
#include <vector>

namespace flangewright::grid {

/// A rectangle in station and distance, and the openings inside it, by their numbers.
struct Window {
    Interval stations;
    Interval distances;
    double widest = 0; ///< distance of lines on its border that suits the elements inside, mm
    std::vector<std::size_t> holes;
    std::vector<std::size_t> notches; ///< then it ends on the free edge
};

/// Windows and the lines of nodes that border them. Bordering lines lie an even number of lines
/// apart.
struct WindowedLines {
    std::vector<Window> windows;
    std::vector<double> stations;
    std::vector<double> distances; ///< up to the highest tab
};

/// Windows that overlap are made one. Lines lie where they would without openings, or near. Units:
/// mm. Source: derived here (docs/theory.md, "Openings"). Fails: never for openings clear of bend,
/// ends and one another.
[[nodiscard]] WindowedLines lines_with_windows(
    const BlankGrid& blank,
    const std::vector<double>& stations,
    const std::vector<double>& distances
);

} // namespace flangewright::grid
