// Which stress makes a sheet flow along a given strain.
#pragma once

#include "solver/material/yield_law.hpp"

namespace flangewright::limits {

/// In-plane strain in rolling axes: along, across, engineering shear. -
using RollingStrain = Eigen::Vector3d;

/// One stretch of strain, rigid-plastic.
struct FlowAlong {
    double equivalent = 0; ///< equivalent plastic strain it takes, -
    material::RollingStress stress = material::RollingStress::Zero(); ///< over the flow stress
};

/// The stress whose flow goes along `strain`: the one that does most work on it among those of one
/// equivalent stress. Found as the least of f(s)^2/2 - s . strain by Newton's method with halved
/// steps; convex, so there is one. Units: -. Source: hill-1952 (largest work, normality), from
/// memory; method derived here (docs/theory-findings.md, "Necking").
/// Fails: no strain or one that is no number gives zero.
[[nodiscard]] FlowAlong flow_along(const material::YieldLaw& law, const RollingStrain& strain);

} // namespace flangewright::limits
