// A made-up formed flange with plausible fields, for tests of the outputs: no mechanics in it.
#pragma once

#include "solver/job/job.hpp"
#include "solver/process/job_result.hpp"

namespace flangewright::support {

/// What the made-up flange looks like. Lengths in mm, angles in rad.
struct FlangeShape {
    outline::BendLine line = outline::BendLine::arc(250, 1.0, outline::Curve::concave);
    int n_along = 80; ///< elements along the bend line
    int n_web = 12;
    int n_bend = 16;
    int n_leg = 14;
    double springback = 0.06;
    double lift = 0.6; ///< rise of the web's arch along the line after release
};

/// The job the made-up result belongs to. Invented values throughout.
[[nodiscard]] job::Job made_up_job(const FlangeShape& shape = {});

/// Mesh, held and released states, frames, findings: shapes by closed form, fields invented.
[[nodiscard]] process::JobResult made_up_result(const FlangeShape& shape = {});

} // namespace flangewright::support
