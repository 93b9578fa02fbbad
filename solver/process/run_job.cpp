#include "solver/process/run_job.hpp"

#include "mesh/base/parallel.hpp"
#include "solver/equilibrium/bare_refactor.hpp"
#include "solver/findings/disagreements.hpp"
#include "solver/findings/hand_calculation.hpp"
#include "solver/findings/part_findings.hpp"
#include "solver/findings/verdict.hpp"
#include "solver/process/bend_down.hpp"
#include "solver/process/release.hpp"
#include "solver/shell/recover.hpp"

#include <chrono>
#include <cmath>
#include <utility>

namespace flangewright::process {

namespace {

// Keeps evenly spaced shapes of a step for the animation.
class FrameKeeper {
public:
    FrameKeeper(std::vector<Frame>& frames, std::string step, double span, int n_frames)
        : frames_(frames), step_(std::move(step)), spacing_(span / std::max(n_frames, 1)) {}

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
    std::string step_;
    double spacing_;
    double last_angle_ = 0;
};

StepReport run_step(
    Workpiece& piece,
    job::StepKind kind,
    const RunOptions& options,
    const Monitor& monitor,
    JobResult& result
) {
    if (kind == job::StepKind::release) {
        return release(piece, {}, monitor);
    }
    FrameKeeper keeper(result.history, name_of(kind), piece.job.drive.angle, options.n_frames);
    keeper.keep(piece, 0, 0);
    return bend_down(piece, {}, monitor, [&keeper](const Workpiece& now, double share_done) {
        keeper.look(now, share_done, driven_angle(now));
    });
}

// Angles of the part held on the block, if a bend-down came before.
std::optional<std::vector<double>> held_angles(const JobResult& result) {
    for (auto step = result.steps.rbegin(); step != result.steps.rend(); ++step) {
        if (step->kind == job::StepKind::bend_down) {
            return findings::flange_angles(step->findings);
        }
    }
    return std::nullopt;
}

void record_step(
    const Workpiece& piece, job::StepKind kind, const StepReport& report, JobResult& result
) {
    StepResult step;
    step.kind = kind;
    step.report = report;
    step.state = piece.state;
    step.fields = shell::recover_fields(piece.model, piece.state);
    const findings::PartShape shape = findings::shape_of(step.state, step.fields);
    const std::optional<std::vector<double>> held =
        kind == job::StepKind::release ? held_angles(result) : std::nullopt;
    if (held) {
        step.findings = findings::find_in_part(
            piece.mesh, shape, step.fields, piece.job, std::span<const double>(*held)
        );
    } else {
        step.findings = findings::find_in_part(piece.mesh, shape, step.fields, piece.job);
    }
    result.history.push_back(
        {name_of(kind), 1, report.angle_reached, step.state.positions, step.fields}
    );
    result.figures.n_increments += report.n_increments;
    result.figures.n_iterations += report.n_iterations;
    result.figures.n_cutbacks += report.n_cutbacks;
    result.steps.push_back(std::move(step));
}

void judge(const Workpiece& piece, JobResult& result) {
    std::vector<findings::PartFindings> steps;
    steps.reserve(result.steps.size());
    for (const StepResult& step : result.steps) {
        steps.push_back(step.findings);
    }
    result.verdict = findings::judge(piece.job, steps);
    result.disagreements = findings::find_disagreements(piece.job, result.by_hand, steps);
}

} // namespace

Result<JobResult> run_job(const job::Job& job, const RunOptions& options, const Monitor& monitor) {
    const auto begin = std::chrono::steady_clock::now();
    const int n_threads = options.n_threads > 0 ? options.n_threads : default_thread_count();
    const Fineness fineness = fineness_for(job.accuracy);
    Result<Workpiece> piece = make_workpiece(job, fineness, n_threads);
    if (!piece) {
        return tl::unexpected(piece.error());
    }
    JobResult result;
    result.mesh = piece->mesh;
    result.by_hand = findings::calculate_by_hand(job);
    double seconds_bare = 0;
    for (const job::StepKind kind : job.steps) {
        const StepReport report = run_step(*piece, kind, options, monitor, result);
        if (kind == job::StepKind::bend_down && options.measure_bare_refactor) {
            seconds_bare = equilibrium::measure_bare_refactor(
                piece->system->pattern(), piece->system->stiffness()
            );
        }
        record_step(*piece, kind, report, result);
        result.reason = report.reason;
        if (report.reason != StopReason::done) {
            break;
        }
    }
    judge(*piece, result);
    const equilibrium::Clock& clock = piece->system->clock();
    result.figures.n_degrees_of_freedom = piece->system->pattern().n_dof;
    result.figures.n_layers = fineness.n_layers;
    result.figures.n_threads = n_threads;
    result.figures.seconds_elements = clock.elements;
    result.figures.seconds_factorise = clock.factorise;
    result.figures.seconds_contact = clock.contact;
    result.figures.seconds_bare_refactor = seconds_bare;
    result.figures.seconds =
        std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
    return result;
}

} // namespace flangewright::process
