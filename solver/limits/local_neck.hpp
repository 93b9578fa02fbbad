// How near a strain path has come to a local neck, over all grooves.
#pragma once

#include "solver/limits/groove.hpp"

namespace flangewright::limits {

/// What a path has used up.
struct NeckShare {
    double share = 0; ///< `used` over `at_neck`; 0 when it never necks
    double used = 0; ///< equivalent strain at the end of the path
    double at_neck = 0; ///< at the neck, the last stretch continued; infinity: never
    double normal = 0; ///< of the groove that takes all first, rad from the rolling direction
};

/// The neck of the groove that takes all first. A neck on the way gives a share above 1. Grooves
/// every 15 degrees, then closer about the worst. Units: -, rad. Source:
/// marciniak-kuczynski-1967, hutchinson-neale-1978. Fails: never; an empty path has used nothing.
[[nodiscard]] NeckShare share_to_neck(
    const NeckingSheet& sheet, std::span<const PathStretch> path, const GrooveChoice& choice
);

/// Equivalent strain at the neck of a straight path in plane strain, the smallest over directions
/// of the sheet every 45 degrees: about the least that a straight path bears. Units: -. Source: as
/// above. Fails: never.
[[nodiscard]] double least_strain_at_neck(const NeckingSheet& sheet, const GrooveChoice& choice);

/// A quick share of a path far from its neck: its equivalent strain over `least`, lessened for a
/// last stretch that narrows as a straight path of von Mises is (hill_factor); 0 when that does not
/// thin the sheet. Units: -. Source: hill-1952, as an estimate; derived here. Fails: never.
[[nodiscard]] double quick_share(std::span<const PathStretch> path, double least);

} // namespace flangewright::limits
