// Strokes of a layer joined end to end, kinks and all: outlines and cut-outs.
#pragma once

#include "io/drawing/stroke.hpp"
#include "mesh/base/result.hpp"

#include <vector>

namespace flangewright::drawing {

/// Strokes of which each begins where the one before it ends.
struct StrokeChain {
    std::vector<Stroke> strokes;
    bool is_closed = false;
};

/// All strokes (in mm) in chains; ends meet within 0.05 mm, shorter strokes are left out.
/// Units: mm. Source: derived here. Fails: more than 1000 strokes; three ends that meet, with their
/// place.
[[nodiscard]] Result<std::vector<StrokeChain>, DrawingProblem>
chains_of(const std::vector<Stroke>& strokes);

} // namespace flangewright::drawing
