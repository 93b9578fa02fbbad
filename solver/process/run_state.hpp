// A run as it was left: all that it takes to go on as if it had never stopped.
#pragma once

#include "solver/process/job_result.hpp"
#include "solver/process/step_keeping.hpp"

#include <string>
#include <vector>

namespace flangewright::process {

/// A step that reached its end. Fields and findings follow from the sheet.
struct FinishedStep {
    job::StepKind kind = job::StepKind::bend_down;
    StepReport report;
    shell::SheetState sheet;
};

/// One run. mm, N, rad.
struct RunState {
    std::vector<FinishedStep> finished;
    equilibrium::DeadLoads held_by; ///< at the end of the last finished step
    std::optional<StepUnderWay> under_way; ///< of the step after these; nothing: not begun
    std::vector<Frame> history;
    SolveFigures spent; ///< seconds only
};

/// What in a state does not fit the piece it is to be taken up with, in plain words; empty when all
/// does. Units: none. Source: none needed. Fails: never.
[[nodiscard]] std::string misfit(const RunState& state, const Workpiece& piece);

} // namespace flangewright::process
