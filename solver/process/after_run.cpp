#include "solver/process/after_run.hpp"

#include "solver/findings/disagreements.hpp"
#include "solver/findings/verdict.hpp"
#include "solver/process/loose_part.hpp"
#include "solver/process/mesh_error.hpp"
#include "solver/process/neck_search.hpp"
#include "solver/process/pass_watch.hpp"
#include "solver/process/remedies.hpp"
#include "solver/process/scatter.hpp"
#include "solver/process/split_chance.hpp"
#include "solver/process/web_cure.hpp"

#include <fmt/format.h>

#include <chrono>

namespace flangewright::process {

namespace {

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

} // namespace

void work_out_the_rest(
    const job::Job& job,
    const Workpiece& piece,
    const RunOptions& options,
    const Monitor& monitor,
    JobResult& result
) {
    const int n_threads = piece.n_threads;
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
            estimate_mesh_error(piece, fineness_for(job.accuracy), result.steps, monitor);
    }
}

} // namespace flangewright::process
