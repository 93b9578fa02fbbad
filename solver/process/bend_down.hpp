// The flange is driven over the nose by a rigid drive whose motion is prescribed.
#pragma once

#include "mesh/base/progress.hpp"
#include "solver/process/job_result.hpp"
#include "solver/process/step_keeping.hpp"
#include "solver/process/workpiece.hpp"

namespace flangewright::process {

/// How tools and sheet meet; not the user's to choose. mm, MPa/mm.
struct ContactChoice {
    double stiffness_factor =
        1; ///< over E / t, about the sheet's own stiffness through its thickness
    double ramp = 0.01; ///< over which contact starts softly
    double stick_factor = 0.1; ///< stiffness of sticking over E / t: about 2 microns of give
    double flat_ramp = 0.05; ///< same for the leaf, which meets the flange all at once
};

/// Told of each accepted shape on the way.
using ShapeListener = std::function<void(const Workpiece&, double share_done)>;

/// Bends the flange down. The web is held flat under the backing, free to slide along the block;
/// its far edge is held. The piece ends in the last equilibrium reached, whatever the reason.
/// Units: mm, N, rad. Source: docs/theory.md, "Bend-down". Fails: see the report.
[[nodiscard]] StepReport bend_down(
    Workpiece& piece,
    const ContactChoice& contact,
    const Monitor& monitor,
    const ShapeListener& listener,
    const StepKeeping& keeping = {}
);

} // namespace flangewright::process
