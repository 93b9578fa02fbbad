// Hands the state of a run to whoever keeps it: after each step, when it is left, and now and then.
#pragma once

#include "solver/process/run_job.hpp"
#include "solver/process/run_state.hpp"

#include <chrono>

namespace flangewright::process {

/// Watches one run. Refers to the result the run fills and to the options it was given.
class RunKeeper {
public:
    RunKeeper(const RunOptions& options, JobResult& result);

    /// For the step about to begin, handed over as it begins: where to go on, if this is the step
    /// that was left, and what to tell on the way.
    [[nodiscard]] StepKeeping keeping_for(const Workpiece& piece);
    /// The step ended before its end.
    void leave(const Workpiece& piece);
    /// The step reached its end; its last frame is in the result.
    void finish(const Workpiece& piece, const StepResult& step);

    [[nodiscard]] const RunState& state() const { return state_; }
    /// Seconds of this run and of those it goes on from; counts are not filled in.
    [[nodiscard]] SolveFigures spent(const Workpiece& piece) const;
    void add_bare_refactor(double seconds) { before_.seconds_bare_refactor = seconds; }

private:
    using Clock = std::chrono::steady_clock;

    void remember(const Workpiece& piece, const equilibrium::PathMemory& path);
    void hand_over(const Workpiece& piece);

    const RunOptions& options_;
    JobResult& result_;
    RunState state_;
    std::optional<equilibrium::PathMemory> path_; ///< of the increment last accepted
    SolveFigures before_;
    Clock::time_point begin_ = Clock::now();
    Clock::time_point handed_over_ = begin_;
    double seconds_to_hand_over_ = 0; ///< what the last one took
};

} // namespace flangewright::process
