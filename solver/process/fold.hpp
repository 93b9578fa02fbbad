// Sheet is driven over a nose by a rigid drive: what bend-down and return bend have in common.
#pragma once

#include "mesh/base/progress.hpp"
#include "solver/process/job_result.hpp"
#include "solver/process/step_keeping.hpp"
#include "solver/process/workpiece.hpp"
#include "solver/tooling/surface/wiper.hpp"

#include <functional>
#include <memory>
#include <vector>

namespace flangewright::process {

/// How tools and sheet meet; not the user's to choose. mm, MPa/mm.
struct ContactChoice {
    double stiffness_factor =
        1; ///< over E / t, about the sheet's own stiffness through its thickness
    double ramp = 0.01; ///< over which contact starts softly
    double stick_factor = 0.1; ///< stiffness of sticking over E / t: about 2 microns of give
    double flat_ramp = 0.05; ///< same for the leaf, which meets the flange all at once
    double clamp_gap =
        0; ///< between the blocks that clamp a flange; 0: closed on its thickest place
};

/// Told of each accepted shape on the way.
using ShapeListener = std::function<void(const Workpiece&, double share_done)>;

/// A drive on its way over a nose.
struct Fold {
    job::StepKind kind = job::StepKind::bend_down;
    std::function<void(equilibrium::Problem&, double share)> set; ///< brings the tools there
    std::function<double(const Workpiece&)> angle; ///< how far the sheet is folded, rad
    std::function<bool(const Workpiece&)> has_arrived;
    double target = 0; ///< angle that counts as all of the way, rad
    double angle_most = 0; ///< at which the drive is stopped, rad
    std::vector<double> stops = {}; ///< shares of the path to come to exactly, rising
    bool runs_to_end = false; ///< neither the angle nor the edge stops it; its path is its progress
};

/// A wiper and where it begins, in the section of the nose it drives over. mm.
struct WiperStroke {
    std::shared_ptr<tooling::Wiper> wiper;
    double start = 0; ///< height of the underside before the stroke
    double travel = 0; ///< until its corner has passed the edge, wherever stretching leaves it

    /// Source: none needed. Fails: never.
    void move_to(double share) const { wiper->set_underside(start - share * (travel + start)); }
    /// Whether the corner has passed the lowest point of the edge. Source: none needed. Fails:
    /// never.
    [[nodiscard]] bool has_passed(double lowest) const {
        return lowest > wiper->underside() + wiper->corner_radius();
    }
};

/// For sheet of a flat width past the bend tangent. Units: mm. Source: docs/theory.md, "Bend-down".
/// Fails: never.
[[nodiscard]] WiperStroke
make_wiper(double nose_radius, const job::Drive& drive, double thickness, double width);

/// Angle at which a wiper is stopped: it makes the sheet square by going past its edge, whatever
/// the angle then is. Units: rad. Source: none needed. Fails: never.
[[nodiscard]] double wiper_angle_most(double angle_wanted);

/// Contact stiffness of the job's sheet. Units: MPa/mm. Source: docs/theory.md, "Contact". Fails:
/// never.
[[nodiscard]] double contact_stiffness(const job::Sheet& sheet, double factor);

/// Leaves in `piece.held_by` what tools and clamp do to the sheet, contact forces and the reactions
/// of all that is fixed beyond symmetry, and puts the path in the words of a step.
/// Units: mm, N, N mm, rad. Source: none needed. Fails: never.
[[nodiscard]] StepReport leave_held(
    Workpiece& piece,
    equilibrium::Problem& problem,
    const equilibrium::PathReport& path,
    double angle_reached
);

/// Follows the drive, settles, and leaves in `piece.held_by` what tools and clamp then do. Units:
/// mm, N, rad. Source: docs/theory.md, "Bend-down". Fails: see the report.
[[nodiscard]] StepReport follow_fold(
    Workpiece& piece,
    equilibrium::Problem& problem,
    const Fold& fold,
    const Monitor& monitor,
    const ShapeListener& listener,
    const StepKeeping& keeping
);

} // namespace flangewright::process
