// One groove of less thickness across a sheet that follows a given strain path: where the strain
// runs into it.
#pragma once

#include "solver/limits/flow_along.hpp"
#include "solver/material/hardening_law.hpp"

#include <span>
#include <vector>

namespace flangewright::limits {

/// The sheet as the analysis sees it; the laws must outlive it. Rigid-plastic, isotropic hardening.
struct NeckingSheet {
    const material::HardeningLaw& hardening; ///< as a tensile test shows it
    const material::YieldLaw& yield;
};

/// Choices of the groove analysis.
struct GrooveChoice {
    /// Thickness in the groove over that of the sheet. It stands for all that makes a sheet uneven
    /// and is fitted, not measured: 0.98 to 0.999 are used. Source: common practice, no source.
    double thickness_ratio = 0.99;
    double step = 0.02; ///< equivalent strain of sheet and groove together in one increment
    double furthest = 3; ///< equivalent strain at which the search for a neck ends
};

/// A stretch of the path along which the strain keeps its direction.
struct PathStretch {
    RollingStrain rate = RollingStrain::Zero(); ///< strain per equivalent strain
    material::RollingStress stress = material::RollingStress::Zero(); ///< over the flow stress
    double length = 0; ///< equivalent strain; of the last one it is not looked at
    [[nodiscard]] double thinning() const { return rate[0] + rate[1]; } ///< log, per the same
};

/// Stretches of a path given by its strain increments; those that are nothing, or no number, are
/// left out. Units: -. Source: flow_along.hpp. Fails: never.
[[nodiscard]] std::vector<PathStretch>
stretches_of(const material::YieldLaw& law, std::span<const RollingStrain> increments);

/// The path up to its last stretch that thins the sheet: what comes after it, released or pressed
/// together, leads to no neck. Units: -. Source: common practice, no source. Fails: never; may be
/// empty.
[[nodiscard]] std::span<const PathStretch> up_to_thinning(std::span<const PathStretch> path);

/// Equivalent strain of the sheet at which the groove takes all, the last stretch that thins the
/// sheet being continued as far as need be; infinity when that is not before `furthest`. `normal`
/// is the groove's normal on the flat sheet, from the rolling direction. A groove grows only along
/// stretches that thin the sheet; along others it is strained as the sheet is.
/// Units: rad, -. Source: marciniak-kuczynski-1967, hutchinson-neale-1978; method derived here
/// (docs/theory-findings.md, "Necking"). Fails: never.
[[nodiscard]] double strain_at_neck(
    const NeckingSheet& sheet,
    std::span<const PathStretch> path,
    double normal,
    const GrooveChoice& choice
);

} // namespace flangewright::limits
