// A small coarse flange that bends in a second, for tests of the steps rather than of their
// figures.
#pragma once

#include "solver/process/workpiece.hpp"
#include "tests/support/flow_law.hpp"

#include <utility>

namespace flangewright::support {

/// A soft sheet of 1 mm, nose 3 mm, flange 9 mm wide. Lengths in mm.
inline job::Job small_flange(outline::BendLine line, job::EndKind start, job::EndKind end) {
    job::Job job;
    job.sheet.thickness = 1;
    job.sheet.material.youngs_modulus = 70000;
    job.sheet.material.poisson_ratio = 0.33;
    job.sheet.material.hardening = swift(330, 0.0032, 0.22);
    job.block.nose_radius = 3;
    job.drive.clearance = 1.4;
    job.drive.corner_radius = 3;
    job.blank.line = std::move(line);
    job.blank.start = start;
    job.blank.end = end;
    job.blank.web_width = 10;
    job.blank.flange_width = 9;
    return job;
}

/// Its coarse mesh: `n_along` elements along the bend line.
inline process::Workpiece small_workpiece(const job::Job& job, int n_along) {
    process::Fineness fineness;
    fineness.n_layers = 6;
    fineness.n_round_nose = 6;
    fineness.largest_turn = 1;
    fineness.growth = 1.5;
    fineness.longest = 1.0001 * job.blank.line.length() / n_along;
    auto made = process::make_workpiece(job, fineness, 1);
    check(made.has_value(), "a small flange can be meshed");
    return std::move(*made);
}

} // namespace flangewright::support
