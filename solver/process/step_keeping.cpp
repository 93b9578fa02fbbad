#include "solver/process/step_keeping.hpp"

namespace flangewright::process {

void take_up(const StepKeeping& keeping, Workpiece& piece, equilibrium::Path& path) {
    path.on_memory = keeping.keep;
    if (keeping.begin_from) {
        piece.state = keeping.begin_from->sheet;
        path.begin_from = keeping.begin_from->path;
    }
}

} // namespace flangewright::process
