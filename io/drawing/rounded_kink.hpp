// A kink of a drawn line with an arc in its place, and the words for it.
#pragma once

#include "io/drawing/stroke.hpp"
#include "mesh/outline/rounded_kinks.hpp"

#include <functional>
#include <string>

namespace flangewright::drawing {

/// What stood on the drawing, and the radius that stands there now.
struct RoundedKink {
    std::string place; ///< "(50, 5) mm", in the words of whoever found it
    double turn = 0; ///< rad, of the kink; positive where the flange must stretch
    double radius = 0; ///< mm, of the bend tangent line
};

/// "kink of 14.0 deg, concave, at (50, 5) mm". Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string name_of(const RoundedKink& kink);

/// That no arc fits; `shown` puts a length in mm into words. Units: mm. Source: none needed.
/// Fails: never.
[[nodiscard]] DrawingProblem no_room_for(
    const RoundedKink& kink,
    const outline::NoRoom& room,
    const std::function<std::string(double)>& shown
);

} // namespace flangewright::drawing
