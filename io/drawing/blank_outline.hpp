// The outline of a flat blank seen from its bend line: web width and flat flange width.
#pragma once

#include "io/drawing/placed_line.hpp"
#include "mesh/outline/profile.hpp"

namespace flangewright::drawing {

/// What a closed outline round the bend line says, mm.
struct BlankOutline {
    double web_width = 0;
    double flat_width = 0; ///< the largest
    outline::Profile flat_widths = {}; ///< over station; empty: alike all along within 0.02 mm
};

/// The outline must be cut square at both ends of the bend line (within 0.05 mm), its web edge keep
/// one distance (within 0.02 mm), its flange edge slope by less than 45 degrees to the line. A flat
/// width that varies is told by points the drawn edge keeps within 0.01 mm of.
/// Units: mm. Source: docs/case-file.md. Fails: with the first thing that is otherwise, and its
/// place.
[[nodiscard]] Result<BlankOutline, DrawingProblem>
blank_outline_of(const std::vector<Stroke>& strokes, const PlacedLine& line);

} // namespace flangewright::drawing
