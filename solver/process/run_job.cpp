#include "solver/process/run_job.hpp"

#include "mesh/base/parallel.hpp"
#include "solver/equilibrium/bare_refactor.hpp"
#include "solver/findings/disagreements.hpp"
#include "solver/findings/hand_calculation.hpp"
#include "solver/findings/openings.hpp"
#include "solver/findings/part_findings.hpp"
#include "solver/findings/strain_since_soft.hpp"
#include "solver/findings/verdict.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/drive_passes.hpp"
#include "solver/process/free_balance.hpp"
#include "solver/process/loose_part.hpp"
#include "solver/process/mesh_error.hpp"
#include "solver/process/neck_search.hpp"
#include "solver/process/pass_watch.hpp"
#include "solver/process/remedies.hpp"
#include "solver/process/return_bend.hpp"
#include "solver/process/run_keeper.hpp"
#include "solver/process/scatter.hpp"
#include "solver/process/second_block.hpp"
#include "solver/process/set_on_block.hpp"
#include "solver/process/split_chance.hpp"
#include "solver/process/web_cure.hpp"
#include "solver/shell/recover.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
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

bool bends(job::StepKind kind) {
    return kind == job::StepKind::bend_down || kind == job::StepKind::return_bend;
}

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

// The part as the last bend left it on the block, if there was one.
const findings::PartFindings* last_bent(const JobResult& result) {
    for (auto step = result.steps.rbegin(); step != result.steps.rend(); ++step) {
        if (bends(step->kind)) {
            return &step->findings;
        }
    }
    return nullptr;
}

// `held` is the part on the block, nothing while it is there.
findings::PartFindings look_at(
    const Workpiece& piece, const shell::SheetFields& fields, const findings::PartFindings* held
) {
    const findings::PartShape shape = findings::shape_of(piece.state, fields);
    if (held == nullptr) {
        return findings::find_in_part(piece.mesh, shape, fields, piece.job);
    }
    const std::vector<double> angles = findings::flange_angles(*held);
    findings::PartFindings part = findings::find_in_part(
        piece.mesh, shape, fields, piece.job, std::span<const double>(angles)
    );
    findings::add_lip_springback(part, *held);
    return part;
}

// Does what comes before the step's balance.
StepResult begin_step(Workpiece& piece, job::StepKind kind, const JobResult& result) {
    prepare_step(piece, kind);
    StepResult step;
    step.kind = kind;
    if (!bends(kind)) {
        const shell::SheetFields fields = shell::recover_fields(piece.model, piece.state);
        const bool is_loose = kind != job::StepKind::release; // a release begins on the block
        const findings::PartFindings before =
            look_at(piece, fields, is_loose ? last_bent(result) : nullptr);
        step.angle_before = before.flange_angle_middle.mean;
    }
    return step;
}

// With a lip the flange is measured between its bends, which trimming leaves alone.
bool is_cut_since_bent(const Workpiece& piece, const JobResult& result) {
    return piece.job.blank.lip_width == 0
        && piece.mesh.n_nodes() < result.steps.front().mesh->n_nodes();
}

// A trimmed flange is measured nearer to the bend than it was on the block: the difference of the
// two angles would be no springback.
void leave_out_springback(findings::PartFindings& part) {
    part.springback.reset();
    part.springback_middle.reset();
    for (findings::StationFindings& at : part.stations) {
        at.springback.reset();
    }
}

void record_step(const Workpiece& piece, StepResult step, JobResult& result) {
    step.mesh = std::make_shared<const grid::SheetMesh>(piece.mesh);
    step.state = piece.state;
    step.fields = shell::recover_fields(piece.model, piece.state);
    const bool is_held = job::ends_on_block(step.kind);
    step.findings = look_at(piece, step.fields, is_held ? nullptr : last_bent(result));
    if (!result.steps.empty() && is_cut_since_bent(piece, result)) {
        leave_out_springback(step.findings);
    }
    if (piece.soft) {
        findings::count_from_soft(
            step.findings,
            piece.mesh,
            piece.job,
            step.fields,
            {piece.soft->positions, piece.soft->across_outer_face, piece.soft->across_block_face}
        );
        findings::count_openings_from_soft(
            step.findings.openings, piece.mesh, piece.state.positions, piece.soft->positions
        );
    }
    result.figures.n_increments += step.report.n_increments;
    result.figures.n_iterations += step.report.n_iterations;
    result.figures.n_cutbacks += step.report.n_cutbacks;
    result.steps.push_back(std::move(step));
}

// What a reader must know of how the steps went.
void add_warnings(JobResult& result) {
    for (const StepResult& step : result.steps) {
        if (step.report.n_moved > 0) {
            result.warnings.push_back(fmt::format(
                "On the way of the {} no balance of forces was found near by {}; the sheet was let "
                "move, damped, until it came to rest. It snaps or wrinkles there: look at the "
                "shapes on the way, and trust the figures less.",
                name_of(step.kind),
                step.report.n_moved == 1 ? "once" : fmt::format("{} times", step.report.n_moved)
            ));
        }
    }
}

// Sets the even drive beside one that is not, when it is asked for.
void compare_with_even(
    const job::Job& job,
    const RunOptions& options,
    int n_threads,
    const Monitor& monitor,
    JobResult& result
) {
    const bool is_even = job.drive.order == job::DriveOrder::evenly;
    if (!options.compares_with_even || is_even || result.reason != StopReason::done) {
        return;
    }
    const auto begin = std::chrono::steady_clock::now();
    result.passes->even = drive_evenly(job, n_threads, monitor);
    const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - begin;
    result.passes->seconds_even = spent.count();
    if (!result.passes->even) {
        result.warnings.emplace_back(
            "The even drive is not set beside this one: driven evenly no balance of forces was "
            "found, or the run was stopped before it was done."
        );
    }
}

void judge(const job::Job& job, JobResult& result) {
    const std::vector<findings::PartFindings> steps = findings_of_steps(result);
    result.verdict = findings::judge(job, steps);
    result.disagreements = findings::find_disagreements(job, result.by_hand, steps);
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

// The part as a step left it, built up again.
Result<Workpiece>
part_after(const job::Job& job, int n_threads, const JobResult& result, std::size_t step) {
    Result<Workpiece> piece = make_workpiece(job, fineness_for(job.accuracy), n_threads);
    for (std::size_t i = 0; piece && i <= step; ++i) {
        prepare_step(*piece, result.steps[i].kind);
        piece->state = result.steps[i].state;
    }
    return piece;
}

// A web that lifts and gets no advice gets a reason.
void work_out_web_cure(
    const job::Job& job, int n_threads, const Monitor& monitor, JobResult& result
) {
    const CureChoice choice;
    const std::optional<std::size_t> step = workable_step(job.steps);
    if (result.reason != StopReason::done || !step
        || result.steps[*step].findings.web_lift < choice.smallest_lift) {
        return;
    }
    Result<Workpiece> piece = part_after(job, n_threads, result, *step);
    if (piece) {
        result.web_cure = find_web_cure(*piece, choice, monitor);
    }
    if (result.web_cure) {
        result.web_cure->step = *step;
    } else {
        result.warnings.emplace_back(
            "Which way to work the edge is left out: with it worked no balance of forces was "
            "found, or the run was stopped before that was done."
        );
    }
}

void add_scatter(const job::Job& job, int n_threads, const Monitor& monitor, JobResult& result) {
    result.scatter = estimate_scatter(job, n_threads, monitor, result.verdict);
    if (result.scatter) {
        result.chance = chance_of_job(job, result.verdict, *result.scatter);
    } else {
        result.warnings.emplace_back(
            "The bands for scatter are left out: with sheet or tools moved by their bands no "
            "balance of forces was found, or the run was stopped before all were done."
        );
    }
}

// A part that may split and gets no advice gets a reason.
void add_remedies(const job::Job& job, int n_threads, const Monitor& monitor, JobResult& result) {
    const findings::VerdictWord word = result.verdict.word;
    if (word == findings::VerdictWord::holds || word == findings::VerdictWord::unknown) {
        return;
    }
    result.remedies = find_remedies(job, result, n_threads, monitor);
    if (!result.remedies) {
        result.warnings.emplace_back(
            "What would help is left out: the thin slice that changes are tried on found no "
            "balance of forces, or the run was stopped before that was done."
        );
    }
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

/// Where the edge stood longer on the way than at the end of the bend-down.
void warn_of_the_way(JobResult& result) {
    if (result.passes && !result.steps.empty()) {
        const double at_end = result.steps.front().findings.edge_tension_most;
        const std::string warning = warning_of_the_way(result.passes->as_driven, at_end);
        if (!warning.empty()) {
            result.warnings.push_back(warning);
        }
    }
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
    look_for_necks(job, n_threads, result);
    judge(job, result);
    add_warnings(result);
    warn_of_the_way(result);
    compare_with_even(job, options, n_threads, monitor, result);
    if (options.works_out_web_cure) {
        work_out_web_cure(job, n_threads, monitor, result);
    }
    if (job.scatter && result.reason == StopReason::done) {
        add_scatter(job, n_threads, monitor, result);
    }
    if (options.works_out_remedies && result.reason == StopReason::done) {
        add_remedies(job, n_threads, monitor, result);
    }
    if (options.estimates_mesh_error && result.reason == StopReason::done) {
        result.mesh_error =
            estimate_mesh_error(*piece, fineness_for(job.accuracy), result.steps, monitor);
    }
    fill_in_figures(*piece, run.spent(*piece), result);
    return result;
}

} // namespace flangewright::process
