#include "io/run_folder/shown_result.hpp"

#include "solver/findings/part_findings.hpp"
#include "solver/findings/set_down.hpp"

#include <algorithm>

namespace flangewright::run_folder {

namespace {

bool knows_its_shape(const process::JobResult& result, std::size_t index) {
    const process::StepResult& step = result.steps[index];
    const Eigen::Index n = process::mesh_of(result, index).n_nodes();
    return n > 0 && step.state.positions.cols() == n && step.state.directors.cols() == n
        && step.fields.thickness.size() == n;
}

void move_frames(process::JobResult& shown, std::size_t step, const findings::RigidMove& by) {
    const Eigen::Index n = process::mesh_of(shown, step).n_nodes();
    for (process::Frame& frame : shown.history) {
        if (frame.step == static_cast<int>(step) && frame.positions.cols() == n) {
            frame.positions = by.of_points(frame.positions);
        }
    }
}

/// Where the nodes of a step lay at the end of the step before; trimming leaves the inner rows.
Eigen::Matrix3Xd positions_before(const process::JobResult& shown, std::size_t index) {
    const grid::SheetMesh& mesh = process::mesh_of(shown, index);
    const grid::SheetMesh& mesh_before = process::mesh_of(shown, index - 1);
    const Eigen::Matrix3Xd& before = shown.steps[index - 1].state.positions;
    if (before.cols() == mesh.n_nodes()) {
        return before;
    }
    Eigen::Matrix3Xd positions = shown.steps[index].state.positions;
    for (std::size_t line = 0; line < mesh.station_lines.size(); ++line) {
        const std::vector<int>& now = mesh.station_lines[line];
        const std::vector<int>& then = mesh_before.station_lines[line];
        for (std::size_t row = 0; row < std::min(now.size(), then.size()); ++row) {
            positions.col(now[row]) = before.col(then[row]);
        }
    }
    return positions;
}

/// Moves the loose part of a step and its frames onto the block, next to where the step before left
/// it.
void set_down(const job::Job& job, process::JobResult& shown, std::size_t index) {
    process::StepResult& step = shown.steps[index];
    if (job::ends_on_block(step.kind) || index == 0 || !knows_its_shape(shown, index)
        || !knows_its_shape(shown, index - 1)) {
        return;
    }
    const findings::RigidMove move = findings::move_onto_block(
        process::mesh_of(shown, index),
        findings::shape_of(step.state, step.fields),
        findings::free_tilts(job.blank),
        positions_before(shown, index)
    );
    step.state.positions = move.of_points(step.state.positions);
    step.state.directors = move.of_directors(step.state.directors);
    move_frames(shown, index, move);
}

} // namespace

process::JobResult shown_result(const job::Job& job, const process::JobResult& result) {
    process::JobResult shown = result;
    for (std::size_t i = 0; i < shown.steps.size(); ++i) {
        set_down(job, shown, i);
    }
    return shown;
}

} // namespace flangewright::run_folder
