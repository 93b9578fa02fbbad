// The folded sections of the independent solid model as jobs of ours, run and held as it holds
// them.
#pragma once

#include "solver/job/job.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/release.hpp"
#include "tests/support/section_profile.hpp"

#include <string>

namespace flangewright::support {

/// One of its sections: S straight, A full rings. S7 and A8 were chosen, with the clearance of 1.4,
/// before either model had been run on them.
enum class SolidCase { s1, s3, s7, a2, a5, a8 };

/// How the section is run.
struct SolidRun {
    double clearance = 1.4; ///< of the wiper, over thickness
    int n_round_nose = 16;
    int n_layers = 16;
    double stiffness_factor = 1; ///< of the contact
    double friction = 0; ///< on block and wiper
    bool is_released = true;
};

/// What it gives. Angles in deg.
struct SolidFigures {
    process::StepReport bend_down;
    process::StepReport release;
    double angle_held = 0;
    double springback = 0; ///< with the far end of the web held, as in the solid model
    double edge_strain = 0;
    double edge_thickness = 0; ///< over that of the flat sheet
    double least_thickness = 0; ///< over that of the flat sheet, as edge_thickness
    SectionProfile held;
    SectionProfile released;
};

/// A slice one thickness long of a straight flange, or of 4 deg of a ring, with planes of symmetry
/// at its ends. Source: materials and sizes from solid-section-reference, "Cases".
[[nodiscard]] job::Job solid_job(SolidCase of, double clearance);

/// The mesh for it.
[[nodiscard]] process::Fineness solid_fineness(SolidCase of, int n_round_nose, int n_layers);

/// Bends down and releases.
[[nodiscard]] SolidFigures run_solid_case(SolidCase of, const SolidRun& run);

} // namespace flangewright::support
