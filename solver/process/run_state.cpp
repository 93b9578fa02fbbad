#include "solver/process/run_state.hpp"

#include "solver/process/drive_passes.hpp"

#include <algorithm>

namespace flangewright::process {

RunState cut_back(RunState state, std::size_t n_steps) {
    if (n_steps > state.finished.size() || (n_steps == state.finished.size() && !state.under_way)) {
        return state;
    }
    state.finished.resize(n_steps);
    state.under_way.reset();
    std::erase_if(state.history, [n_steps](const Frame& frame) {
        return frame.step >= static_cast<int>(n_steps);
    });
    state.spent = {};
    if (n_steps == 0) {
        state.drive.reset();
    }
    return state;
}

bool fits(const shell::SheetState& sheet, const Workpiece& piece) {
    return sheet.positions.cols() == piece.state.positions.cols()
        && sheet.directors.cols() == piece.state.directors.cols()
        && sheet.points.size() == piece.state.points.size()
        && sheet.back_stresses.size() == piece.state.back_stresses.size()
        && sheet.fibres.size() == piece.state.fibres.size();
}

bool fits(const StepUnderWay& step, const Workpiece& piece) {
    const Eigen::Index n_nodes = piece.model.n_nodes();
    const auto fits_mesh = [n_nodes](const equilibrium::FrictionMemory& memory) {
        return memory.slip.cols() == n_nodes && memory.normal.cols() == n_nodes
            && memory.limit.size() == n_nodes && memory.placement.cols() == n_nodes;
    };
    return fits(step.sheet, piece) && step.path.last.moves.cols() == n_nodes
        && step.path.last.turns.cols() == n_nodes
        && std::ranges::all_of(step.path.friction, fits_mesh);
}

bool fits(const equilibrium::DeadLoads& loads, const Workpiece& piece) {
    const Eigen::Index n_nodes = piece.model.n_nodes();
    return loads.on_positions.cols() == n_nodes && loads.on_directors.cols() == n_nodes
        && loads.moments.cols() == n_nodes;
}

bool has_record_of(const RunState& state, const Workpiece& blank) {
    const bool has_begun = !state.finished.empty() || state.under_way;
    if (!state.drive || !has_passes(blank.job.drive)) {
        return !state.drive && !(has_begun && has_passes(blank.job.drive));
    }
    const auto n_nodes = static_cast<Eigen::Index>(blank.mesh.free_edge.size());
    return state.drive->stations.size() == n_nodes && state.drive->stretched.size() == n_nodes
        && state.drive->shrunk.size() == n_nodes
        && state.drive->passes.size() <= pass_angles(blank.job.drive).size();
}

bool fits(const Frame& frame, const JobResult& result) {
    if (frame.step < 0 || frame.step >= static_cast<int>(result.steps.size())) {
        return false;
    }
    const Eigen::Index n_nodes = mesh_of(result, static_cast<std::size_t>(frame.step)).n_nodes();
    const shell::SheetFields& fields = frame.fields;
    const auto has_each = [n_nodes](const Eigen::VectorXd& field) {
        return field.size() == n_nodes;
    };
    return frame.positions.cols() == n_nodes && has_each(fields.thickness)
        && has_each(fields.plastic_strain) && has_each(fields.major_mid)
        && has_each(fields.minor_mid) && has_each(fields.major_block_face)
        && has_each(fields.minor_block_face) && has_each(fields.major_outer_face)
        && has_each(fields.minor_outer_face) && has_each(fields.across_outer_face)
        && has_each(fields.across_block_face) && fields.stress_block_face.cols() == n_nodes
        && fields.stress_outer_face.cols() == n_nodes;
}

bool has_steps_of(const RunState& state, const job::Job& job) {
    const std::size_t n_needed = state.finished.size() + (state.under_way ? 1 : 0);
    return n_needed <= job.steps.size()
        && std::ranges::equal(
               state.finished,
               std::span(job.steps).first(state.finished.size()),
               {},
               &FinishedStep::kind
        );
}

} // namespace flangewright::process
