#include "tests/support/solid_cases.hpp"

#include "mesh/base/check.hpp"
#include "solver/findings/part_findings.hpp"
#include "solver/shell/recover.hpp"
#include "tests/support/flow_law.hpp"

#include <algorithm>
#include <numbers>

namespace flangewright::support {

namespace {

constexpr double deg = std::numbers::pi / 180;
constexpr double slice = 4 * deg;

/// Soft, hard and middling: Young's modulus and Swift's law.
struct Metal {
    double youngs_modulus;
    double strength;
    double prestrain;
    double exponent;
};
constexpr Metal m1{70000, 330, 0.0032, 0.22};
constexpr Metal m2{70000, 500, 0.02, 0.15};
constexpr Metal m4{71000, 420, 0.008, 0.18};

/// Sizes as the solid model has them.
struct Section {
    double wall_radius; ///< of a ring; 0: straight
    double thickness;
    double nose_radius;
    double flange_width; ///< flat
    double web_width;
    Metal metal;
};

Section section_of(SolidCase of) {
    switch (of) {
    case SolidCase::s1:
        return {0, 1, 3, 20, 30, m1};
    case SolidCase::s3:
        return {0, 1, 3, 20, 30, m2};
    case SolidCase::s7:
        return {0, 1.6, 8, 32, 45, m4};
    case SolidCase::a2:
        return {60, 1, 3, 12, 40, m1};
    case SolidCase::a5:
        return {150, 1, 3, 30, 40, m2};
    case SolidCase::a8:
        return {80, 0.8, 3.2, 16, 40, m2};
    }
    check(false, "every section of the solid model has its sizes");
    return {};
}

outline::BendLine line_of(const Section& section) {
    // The bend tangent lies one nose radius farther out than the wall.
    return section.wall_radius == 0
        ? outline::BendLine::straight(section.thickness)
        : outline::BendLine::arc(
            section.wall_radius + section.nose_radius, slice, outline::Curve::concave
        );
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
    const Section section = section_of(of);
    const Metal& metal = section.metal;
    job::Job job;
    job.sheet.thickness = section.thickness;
    job.sheet.material.youngs_modulus = metal.youngs_modulus;
    job.sheet.material.poisson_ratio = 0.33;
    job.sheet.material.hardening = swift(metal.strength, metal.prestrain, metal.exponent);
    job.block.nose_radius = section.nose_radius;
    job.drive.clearance = clearance;
    job.drive.corner_radius = std::max(2 * section.thickness, 3.0);
    job.blank.line = line_of(section);
    job.blank.start = job.blank.end = job::EndKind::continues;
    job.blank.web_width = section.web_width;
    job.blank.flange_width = section.flange_width;
    return job;
}

process::Fineness solid_fineness(SolidCase of, int n_round_nose, int n_layers) {
    process::Fineness fineness;
    fineness.n_layers = n_layers;
    fineness.n_round_nose = n_round_nose;
    fineness.largest_turn = 2.01 * deg;
    const Section section = section_of(of);
    fineness.longest = section.wall_radius == 0 ? section.thickness : 100;
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
    figures.edge_thickness = part.stations.front().edge_thickness / piece.job.sheet.thickness;
    figures.least_thickness = held.thickness.minCoeff() / piece.job.sheet.thickness;
    figures.held = profile_of(piece, held);
    if (run.is_released) {
        figures.release = process::release(piece, {.holds_web_edge = true}, {});
        const shell::SheetFields after = shell::recover_fields(piece.model, piece.state);
        figures.released = profile_of(piece, after);
        figures.springback = figures.angle_held - mean_angle(piece, after);
    }
    return figures;
}

} // namespace flangewright::support
