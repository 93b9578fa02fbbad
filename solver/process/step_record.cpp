#include "solver/process/step_record.hpp"

#include "solver/findings/openings.hpp"
#include "solver/findings/part_findings.hpp"
#include "solver/findings/strain_since_soft.hpp"
#include "solver/process/loose_part.hpp"
#include "solver/shell/recover.hpp"

#include <utility>

namespace flangewright::process {

namespace {

// The part as the last bend left it on the block, if there was one.
const findings::PartFindings* last_bent(const JobResult& result) {
    for (auto step = result.steps.rbegin(); step != result.steps.rend(); ++step) {
        if (bends(step->kind)) {
            return &step->findings;
        }
    }
    return nullptr;
}

// `held` is the part on the block, nothing while it is there.
findings::PartFindings look_at(
    const Workpiece& piece, const shell::SheetFields& fields, const findings::PartFindings* held
) {
    const findings::PartShape shape = findings::shape_of(piece.state, fields);
    if (held == nullptr) {
        return findings::find_in_part(piece.mesh, shape, fields, piece.job);
    }
    const std::vector<double> angles = findings::flange_angles(*held);
    findings::PartFindings part = findings::find_in_part(
        piece.mesh, shape, fields, piece.job, std::span<const double>(angles)
    );
    findings::add_lip_springback(part, *held);
    return part;
}

// With a lip the flange is measured between its bends, which trimming leaves alone.
bool is_cut_since_bent(const Workpiece& piece, const JobResult& result) {
    return piece.job.blank.lip_width == 0
        && piece.mesh.n_nodes() < result.steps.front().mesh->n_nodes();
}

// A trimmed flange is measured nearer to the bend than it was on the block: the difference of the
// two angles would be no springback.
void leave_out_springback(findings::PartFindings& part) {
    part.springback.reset();
    part.springback_middle.reset();
    for (findings::StationFindings& at : part.stations) {
        at.springback.reset();
    }
}

} // namespace

bool bends(job::StepKind kind) {
    return kind == job::StepKind::bend_down || kind == job::StepKind::return_bend;
}

StepResult begin_step(Workpiece& piece, job::StepKind kind, const JobResult& result) {
    prepare_step(piece, kind);
    StepResult step;
    step.kind = kind;
    if (!bends(kind)) {
        const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
        const bool is_loose = kind != job::StepKind::release; // a release begins on the block
        const findings::PartFindings before =
            look_at(piece, fields, is_loose ? last_bent(result) : nullptr);
        step.angle_before = before.flange_angle_middle.mean;
    }
    return step;
}

void record_step(const Workpiece& piece, StepResult step, JobResult& result) {
    step.mesh = std::make_shared<const grid::SheetMesh>(piece.mesh);
    step.state = piece.state;
    step.fields = shell::recover_fields(piece.model, piece.state);
    const bool is_held = job::ends_on_block(step.kind);
    step.findings = look_at(piece, step.fields, is_held ? nullptr : last_bent(result));
    if (!result.steps.empty() && is_cut_since_bent(piece, result)) {
        leave_out_springback(step.findings);
    }
    if (piece.soft) {
        findings::count_from_soft(
            step.findings,
            piece.mesh,
            piece.job,
            step.fields,
            {piece.soft->positions, piece.soft->across_outer_face, piece.soft->across_block_face}
        );
        findings::count_openings_from_soft(
            step.findings.openings, piece.mesh, piece.state.positions, piece.soft->positions
        );
    }
    result.figures.n_increments += step.report.n_increments;
    result.figures.n_iterations += step.report.n_iterations;
    result.figures.n_cutbacks += step.report.n_cutbacks;
    result.steps.push_back(std::move(step));
}

} // namespace flangewright::process
