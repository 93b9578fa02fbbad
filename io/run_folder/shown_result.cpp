#include "io/run_folder/shown_result.hpp"

#include "solver/findings/part_findings.hpp"
#include "solver/findings/set_down.hpp"

namespace flangewright::run_folder {

namespace {

bool knows_its_shape(const process::JobResult& result, const process::StepResult& step) {
    const Eigen::Index n = result.mesh.n_nodes();
    return n > 0 && step.state.positions.cols() == n && step.state.directors.cols() == n
        && step.fields.thickness.size() == n;
}

void move_frames(
    process::JobResult& shown, const std::string& step, const findings::RigidMove& by
) {
    for (process::Frame& frame : shown.history) {
        if (frame.step == step && frame.positions.cols() == shown.mesh.n_nodes()) {
            frame.positions = by.of_points(frame.positions);
        }
    }
}

/// Moves a released step and its frames onto the block, next to where the step before left it.
void set_down(const job::Job& job, process::JobResult& shown, std::size_t index) {
    process::StepResult& step = shown.steps[index];
    const bool was_held = index > 0 && knows_its_shape(shown, shown.steps[index - 1]);
    if (step.kind != job::StepKind::release || !was_held || !knows_its_shape(shown, step)) {
        return;
    }
    const findings::RigidMove move = findings::move_onto_block(
        shown.mesh,
        findings::shape_of(step.state, step.fields),
        findings::free_tilts(job.blank),
        shown.steps[index - 1].state.positions
    );
    step.state.positions = move.of_points(step.state.positions);
    step.state.directors = move.of_directors(step.state.directors);
    move_frames(shown, process::name_of(step.kind), move);
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
