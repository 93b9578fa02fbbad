#include "tests/support/solid_cases.hpp"

#include "mesh/base/check.hpp"
#include "solver/findings/part_findings.hpp"
#include "solver/shell/recover.hpp"
#include "tests/support/flow_law.hpp"

#include <numbers>

namespace flangewright::support {

namespace {

constexpr double deg = std::numbers::pi / 180;
constexpr double slice = 4 * deg;

bool is_straight(SolidCase of) {
    return of == SolidCase::s1 || of == SolidCase::s3;
}

outline::BendLine line_of(SolidCase of) {
    // The solid model's Rb is the wall's; the bend tangent lies one nose radius farther out.
    switch (of) {
    case SolidCase::a2:
        return outline::BendLine::arc(60 + 3, slice, outline::Curve::concave);
    case SolidCase::a5:
        return outline::BendLine::arc(150 + 3, slice, outline::Curve::concave);
    case SolidCase::s1:
    case SolidCase::s3:
        break;
    }
    return outline::BendLine::straight(1);
}

double mean_angle(const process::Workpiece& piece, const shell::SheetFields& fields) {
    // Without held angles the web plane is level, as in the solid model.
    return findings::find_in_part(
               piece.mesh, findings::shape_of(piece.state, fields), fields, piece.job
           )
               .flange_angle.mean
        / deg;
}

} // namespace

job::Job solid_job(SolidCase of, double clearance) {
    job::Job job;
    const bool is_soft = of == SolidCase::s1 || of == SolidCase::a2;
    job.sheet.thickness = 1;
    job.sheet.material.youngs_modulus = 70000;
    job.sheet.material.poisson_ratio = 0.33;
    job.sheet.material.hardening = is_soft ? swift(330, 0.0032, 0.22) : swift(500, 0.02, 0.15);
    job.block.nose_radius = 3;
    job.drive.clearance = clearance;
    job.drive.corner_radius = 3;
    job.blank.line = line_of(of);
    job.blank.start = job.blank.end = job::EndKind::continues;
    job.blank.web_width = is_straight(of) ? 30 : 40;
    job.blank.flange_width = is_straight(of) ? 20 : of == SolidCase::a2 ? 12 : 30;
    return job;
}

process::Fineness solid_fineness(SolidCase of, int n_round_nose, int n_layers) {
    process::Fineness fineness;
    fineness.n_layers = n_layers;
    fineness.n_round_nose = n_round_nose;
    fineness.largest_turn = 2.01 * deg;
    fineness.longest = is_straight(of) ? 1 : 100;
    return fineness;
}

SolidFigures run_solid_case(SolidCase of, const SolidRun& run) {
    job::Job job = solid_job(of, run.clearance);
    job.block.friction = run.friction;
    auto made = process::make_workpiece(job, solid_fineness(of, run.n_round_nose, run.n_layers), 1);
    check(made.has_value(), "a section of the solid model can be meshed");
    process::Workpiece& piece = *made;
    SolidFigures figures;
    figures.bend_down =
        process::bend_down(piece, {.stiffness_factor = run.stiffness_factor}, {}, {});
    const shell::SheetFields held = shell::recover_fields(piece.model, piece.state);
    const findings::PartFindings part =
        findings::find_in_part(piece.mesh, findings::shape_of(piece.state, held), held, piece.job);
    figures.angle_held = mean_angle(piece, held);
    figures.edge_strain = part.edge_strain_most;
    figures.edge_thickness = part.stations.front().edge_thickness;
    figures.least_thickness = held.thickness.minCoeff();
    if (run.is_released) {
        figures.release = process::release(piece, {.holds_web_edge = true}, {});
        const shell::SheetFields after = shell::recover_fields(piece.model, piece.state);
        figures.springback = figures.angle_held - mean_angle(piece, after);
    }
    return figures;
}

} // namespace flangewright::support
