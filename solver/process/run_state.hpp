// A run as it was left: all that it takes to go on as if it had never stopped.
#pragma once

#include "solver/process/job_result.hpp"
#include "solver/process/step_keeping.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace flangewright::process {

/// A step that reached its end. Fields and findings follow from the sheet.
struct FinishedStep {
    job::StepKind kind = job::StepKind::bend_down;
    StepReport report;
    shell::SheetState sheet;
    equilibrium::DeadLoads held_by; ///< what tools and clamp do at its end
};

/// One run. mm, N, rad.
struct RunState {
    std::vector<FinishedStep> finished;
    std::optional<StepUnderWay> under_way; ///< of the step after these; nothing: not begun
    std::vector<Frame> history;
    std::optional<DriveRecord> drive; ///< of a bend-down in passes, as far as it got
    SolveFigures spent; ///< seconds only
};

/// The run as it was when only its first steps were finished, at most all that are. What later
/// steps spent is forgotten with what the earlier ones did. Units: none. Source: none needed.
/// Fails: never.
[[nodiscard]] RunState cut_back(RunState state, std::size_t n_steps);

/// Whether the finished steps are the first ones of the job, and one is left for the step under
/// way. Units: none. Source: none needed. Fails: never.
[[nodiscard]] bool has_steps_of(const RunState& state, const job::Job& job);

/// Whether a state, a step on its way or forces are those of the piece's mesh as it is now.
/// Units: none. Source: none needed. Fails: never.
[[nodiscard]] bool fits(const shell::SheetState& sheet, const Workpiece& piece);
[[nodiscard]] bool fits(const StepUnderWay& step, const Workpiece& piece);
[[nodiscard]] bool fits(const equilibrium::DeadLoads& loads, const Workpiece& piece);

/// Whether a run that goes on has what its bend-down in passes has recorded, on the edge of the
/// blank's mesh. Units: none. Source: none needed. Fails: never.
[[nodiscard]] bool has_record_of(const RunState& state, const Workpiece& blank);

/// Whether a frame is one of the result's steps and of that step's mesh. Units: none. Source: none
/// needed. Fails: never.
[[nodiscard]] bool fits(const Frame& frame, const JobResult& result);

} // namespace flangewright::process
