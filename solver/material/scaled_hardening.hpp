// A hardening law whose yield stress and rise are scaled: what another lot of the same sheet may
// be.
#pragma once

#include "solver/material/hardening_law.hpp"

namespace flangewright::material {

/// yield * Y(0) + rise * (Y(p) - Y(0)) for the flow stress Y of `law`. Both factors > 0.
/// Units: -. Source: definition. Fails: never.
[[nodiscard]] std::shared_ptr<const HardeningLaw>
scaled_hardening(std::shared_ptr<const HardeningLaw> law, double yield, double rise);

} // namespace flangewright::material
