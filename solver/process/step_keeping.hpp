// A step that can be left on its way and taken up again.
#pragma once

#include "mesh/base/progress.hpp"
#include "solver/process/workpiece.hpp"

#include <functional>
#include <optional>

namespace flangewright::process {

/// Where a step was when it was left.
struct StepUnderWay {
    shell::SheetState sheet;
    equilibrium::PathMemory path;
};

/// How one step is kept and taken up.
struct StepKeeping {
    /// Taken up there; the piece is handed over as the step began. Nothing: from its beginning.
    std::optional<StepUnderWay> begin_from = {};
    /// Told after each accepted increment what, beside the piece's state, it takes to go on.
    std::function<void(const equilibrium::PathMemory&)> keep = {};
};

/// Tells of each accepted increment of a step whose progress is its path, and lets it go on.
/// Refers to all it is given. Source: none needed. Fails: never.
[[nodiscard]] std::function<bool(const equilibrium::PathReport&)>
teller(const Monitor& monitor, job::StepKind kind, const Workpiece& piece);

/// Puts the piece and its path where the step was left. Called when all that hangs on the step's
/// beginning is set up. Units: mm, N. Source: none needed. Fails: never for a state that fits.
void take_up(const StepKeeping& keeping, Workpiece& piece, equilibrium::Path& path);

} // namespace flangewright::process
