// Where an increment begins: the last one carried on, no further than the tools push.
#pragma once

#include "solver/equilibrium/sheet_system.hpp"

namespace flangewright::equilibrium {

/// An accepted increment, for extrapolation.
struct Increment {
    Eigen::Matrix3Xd moves; ///< mm
    Eigen::Matrix3Xd turns; ///< rotation vectors of the directors, rad
    double share = 0; ///< 0: there was none yet
};

/// What lies between two shapes of the sheet. Units: mm, rad. Source: derived here
/// (docs/theory.md, "Increments"). Fails: never.
[[nodiscard]] Increment
increment_between(const shell::SheetState& before, const Shape& after, double share);

/// Carries the last increment on over the next `share` of the path. With tools, only as far as they
/// push: a sheet carried past its tool would spring back to it, and the tangent there, that of
/// plastic flow, is far too soft for that. Units: mm, rad. Source: derived here (docs/theory.md,
/// "Increments"). Fails: never; where no place along the way can be balanced, it stays put.
void carry_on(
    SheetSystem& system, const Problem& problem, Shape& shape, const Increment& last, double share
);

} // namespace flangewright::equilibrium
