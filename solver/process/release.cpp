#include "solver/process/release.hpp"

namespace flangewright::process {

StepReport release(
    Workpiece& piece,
    const ReleaseChoice& choice,
    const Monitor& monitor,
    const StepKeeping& keeping
) {
    return balance_free(piece, job::StepKind::release, choice, monitor, keeping);
}

} // namespace flangewright::process
