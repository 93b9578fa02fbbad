// How tightly the bend line curves in plan now.
#pragma once

#include <Eigen/Core>

#include <span>

namespace flangewright::findings {

/// Radius of the circle that fits the given nodes best in plan (least square distance); infinity
/// when they lie on a straight line within rounding (sagitta below a millionth of the chord).
/// Units: mm. Source: derived here (docs/theory-findings.md, "Plan radius"). Fails: infinity for
/// fewer than three nodes.
[[nodiscard]] double
plan_radius(const Eigen::Ref<const Eigen::Matrix3Xd>& positions, std::span<const int> nodes);

} // namespace flangewright::findings
