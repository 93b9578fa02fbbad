#include "solver/process/step_keeping.hpp"

namespace flangewright::process {

std::function<bool(const equilibrium::PathReport&)>
teller(const Monitor& monitor, job::StepKind kind, const Workpiece& piece) {
    return [&monitor, kind, &piece](const equilibrium::PathReport& report) {
        monitor.report({
            .step = name_of(kind),
            .share_done = report.share_done,
            .flange_angle = driven_angle(piece),
            .n_increments = report.n_increments,
            .n_iterations = report.n_iterations,
        });
        return true;
    };
}

void take_up(const StepKeeping& keeping, Workpiece& piece, equilibrium::Path& path) {
    path.on_memory = keeping.keep;
    if (keeping.begin_from) {
        piece.state = keeping.begin_from->sheet;
        path.begin_from = keeping.begin_from->path;
    }
}

} // namespace flangewright::process
