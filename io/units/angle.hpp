// Angles: degrees outside, radians inside.
#pragma once

#include <numbers>

namespace flangewright::units {

/// Units: takes deg, returns rad. Source: definition. Fails: never.
[[nodiscard]] inline constexpr double radians(double angle_deg) {
    return angle_deg * (std::numbers::pi / 180);
}

/// Units: takes rad, returns deg. Source: definition. Fails: never.
[[nodiscard]] inline constexpr double degrees(double angle) {
    return angle * (180 / std::numbers::pi);
}

} // namespace flangewright::units
