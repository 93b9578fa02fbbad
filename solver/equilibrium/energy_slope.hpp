// The energy's slope along a way of the sheet, and where it vanishes: for the line search and the
// predictor.
#pragma once

#include <algorithm>

namespace flangewright::equilibrium {

/// The slope at one place of the way.
struct SlopeAt {
    double share = 0; ///< of the way
    double slope = 0; ///< N mm
};

/// Share at which a straight line between two slopes of unlike sign vanishes, kept a tenth of the
/// gap off both ends, so that the bracket shrinks. Units: N mm. Source: regula falsi, textbook.
/// Fails: never.
[[nodiscard]] inline double level_between(const SlopeAt& low, const SlopeAt& high) {
    constexpr double margin = 0.1;
    const double part = -low.slope / (high.slope - low.slope);
    return low.share + (high.share - low.share) * std::clamp(part, margin, 1 - margin);
}

} // namespace flangewright::equilibrium
