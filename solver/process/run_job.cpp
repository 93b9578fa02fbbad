#include "solver/process/run_job.hpp"

#include "mesh/base/parallel.hpp"
#include "solver/equilibrium/bare_refactor.hpp"
#include "solver/findings/hand_calculation.hpp"
#include "solver/process/after_run.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/drive_passes.hpp"
#include "solver/process/free_balance.hpp"
#include "solver/process/loose_part.hpp"
#include "solver/process/pass_watch.hpp"
#include "solver/process/return_bend.hpp"
#include "solver/process/run_keeper.hpp"
#include "solver/process/second_block.hpp"
#include "solver/process/set_on_block.hpp"
#include "solver/process/step_record.hpp"
#include "solver/shell/recover.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace flangewright::process {

namespace {

constexpr const char* another_mesh = "another mesh than this program makes";

// Keeps evenly spaced shapes of a step for the animation.
class FrameKeeper {
public:
    FrameKeeper(std::vector<Frame>& frames, int step, double span, int n_frames)
        : frames_(frames), step_(step), spacing_(span / std::max(n_frames, 1)) {}

    /// Goes on where an earlier run left it; its frames are there already.
    void go_on() {
        if (!frames_.empty() && frames_.back().step == step_) {
            last_angle_ = frames_.back().drive_angle;
        }
    }

    void look(const Workpiece& piece, double share_done, double angle) {
        if (std::abs(angle - last_angle_) >= spacing_) {
            last_angle_ = angle;
            keep(piece, share_done, angle);
        }
    }

    void keep(const Workpiece& piece, double share_done, double angle) {
        frames_.push_back(
            {step_,
             share_done,
             angle,
             piece.state.positions,
             shell::recover_fields(piece.model, piece.state)}
        );
    }

private:
    std::vector<Frame>& frames_;
    int step_;
    double spacing_;
    double last_angle_ = 0;
};

StepReport run_step(
    Workpiece& piece,
    job::StepKind kind,
    const RunOptions& options,
    const Monitor& monitor,
    JobResult& result,
    RunKeeper& run
) {
    const StepKeeping keeping = run.keeping_for(piece);
    if (kind == job::StepKind::set_on_block) {
        return set_on_block(piece, {}, monitor, keeping);
    }
    if (!bends(kind)) {
        return balance_free(piece, kind, {}, monitor, keeping);
    }
    const bool is_lip = kind == job::StepKind::return_bend;
    const double target = is_lip ? piece.job.return_bend->angle : piece.job.drive.angle;
    const int step = static_cast<int>(result.steps.size());
    FrameKeeper frames(result.history, step, target, options.n_frames);
    if (keeping.begin_from) {
        frames.go_on();
    } else {
        frames.keep(piece, 0, 0);
    }
    std::optional<PassWatch> passes;
    if (!is_lip && has_passes(piece.job.drive)) {
        if (!keeping.begin_from) {
            result.passes.emplace();
        }
        passes.emplace(piece, result.passes->as_driven);
    }
    const ShapeListener listener = [&](const Workpiece& now, double share_done) {
        const double angle = is_lip ? lip_angle(now, second_section(now.job)) : driven_angle(now);
        frames.look(now, share_done, angle);
        if (passes) {
            passes->look(now, share_done);
        }
    };
    const StepReport report = is_lip ? return_bend(piece, {}, monitor, listener, keeping)
                                     : bend_down(piece, {}, monitor, listener, keeping);
    if (passes) {
        passes->finish(piece, report.reason);
    }
    return report;
}

// Steps a run that was left had finished. Says what does not fit the piece, if anything.
std::string take_up_finished(Workpiece& piece, const RunKeeper& run, JobResult& result) {
    for (const FinishedStep& step : run.state().finished) {
        StepResult now = begin_step(piece, step.kind, result);
        if (!fits(step.sheet, piece)) {
            return another_mesh;
        }
        piece.state = step.sheet;
        now.report = step.report;
        record_step(piece, std::move(now), result);
    }
    if (!run.state().finished.empty()) {
        const equilibrium::DeadLoads& held_by = run.state().finished.back().held_by;
        if (!fits(held_by, piece)) {
            return another_mesh;
        }
        piece.held_by = held_by;
    }
    return "";
}

// Says what of a step taken up on its way does not fit the piece, if anything.
std::string run_steps(
    Workpiece& piece,
    const RunOptions& options,
    const Monitor& monitor,
    RunKeeper& run,
    JobResult& result
) {
    for (std::size_t i = run.state().finished.size(); i < piece.job.steps.size(); ++i) {
        const job::StepKind kind = piece.job.steps[i];
        StepResult now = begin_step(piece, kind, result);
        if (run.state().under_way && !fits(*run.state().under_way, piece)) {
            return another_mesh;
        }
        const StepReport report = run_step(piece, kind, options, monitor, result, run);
        result.reason = report.reason;
        if (report.reason != StopReason::done) {
            run.leave(piece);
        }
        if (kind == job::StepKind::bend_down && options.measure_bare_refactor) {
            run.add_bare_refactor(equilibrium::measure_bare_refactor(
                piece.system->pattern(), piece.system->stiffness()
            ));
        }
        now.report = report;
        record_step(piece, std::move(now), result);
        const StepResult& step = result.steps.back();
        result.history.push_back(
            {static_cast<int>(i), 1, report.angle_reached, step.state.positions, step.fields}
        );
        if (report.reason != StopReason::done) {
            break;
        }
        run.finish(piece, step);
    }
    return "";
}

OutsideProblem cannot_go_on(const std::string& fault) {
    return {"going on from the saved state", fault, "run again from the beginning"};
}

void fill_in_figures(const Workpiece& piece, const SolveFigures& spent, JobResult& result) {
    result.figures.n_degrees_of_freedom = piece.system->pattern().n_dof;
    result.figures.n_layers = fineness_for(piece.job.accuracy).n_layers;
    result.figures.n_threads = piece.n_threads;
    result.figures.seconds = spent.seconds;
    result.figures.seconds_elements = spent.seconds_elements;
    result.figures.seconds_factorise = spent.seconds_factorise;
    result.figures.seconds_contact = spent.seconds_contact;
    result.figures.seconds_bare_refactor = spent.seconds_bare_refactor;
}

} // namespace

Result<JobResult> run_job(const job::Job& job, const RunOptions& options, const Monitor& monitor) {
    JobResult result;
    RunKeeper run(options, result);
    const int n_threads = options.n_threads > 0 ? options.n_threads : default_thread_count();
    Result<Workpiece> piece = make_workpiece(job, fineness_for(job.accuracy), n_threads);
    if (!piece) {
        return tl::unexpected(piece.error());
    }
    if (options.begin_from && !has_steps_of(*options.begin_from, job)) {
        return tl::unexpected(cannot_go_on("other steps than the job has"));
    }
    if (options.begin_from && !has_record_of(*options.begin_from, *piece)) {
        return tl::unexpected(cannot_go_on("no record of the passes the job has"));
    }
    result.mesh = piece->mesh;
    result.by_hand = findings::calculate_by_hand(job);
    std::string fault = take_up_finished(*piece, run, result);
    if (fault.empty()) {
        fault = run_steps(*piece, options, monitor, run, result);
    }
    const auto is_odd = [&](const Frame& frame) { return !fits(frame, result); };
    if (fault.empty() && std::ranges::any_of(result.history, is_odd)) {
        fault = another_mesh;
    }
    if (!fault.empty()) {
        return tl::unexpected(cannot_go_on(fault));
    }
    work_out_the_rest(job, *piece, options, monitor, result);
    fill_in_figures(*piece, run.spent(*piece), result);
    return result;
}

} // namespace flangewright::process
