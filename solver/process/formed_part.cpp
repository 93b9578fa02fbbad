#include "solver/process/formed_part.hpp"

#include "solver/findings/part_findings.hpp"
#include "solver/process/loose_part.hpp"
#include "solver/process/run_job.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::process {

namespace {

/// The job as its steps have left it.
job::Job after_steps(const job::Job& job) {
    job::Job left = job;
    if (std::ranges::find(job.steps, job::StepKind::trim) != job.steps.end()) {
        left.blank = without_allowance(job.blank);
    }
    return left;
}

bool has_flange_holes(const job::Blank& blank) {
    return std::ranges::any_of(blank.openings.holes, [](const outline::Hole& hole) {
        return hole.distance > 0;
    });
}

} // namespace

bool is_at_opening(const job::Blank& blank, double station) {
    constexpr double slack = 1e-6; // mm
    const outline::BendLine& line = blank.line;
    for (const outline::Notch& notch : blank.openings.notches) {
        const double scale =
            1 - line.curvature(notch.station) * blank.flange_width_at(notch.station);
        if (std::abs(station - notch.station) * scale < 0.5 * notch.width + slack) {
            return true;
        }
    }
    return std::ranges::any_of(blank.openings.tabs, [station](const outline::Tab& tab) {
        return station > tab.begin - slack && station < tab.end + slack;
    });
}

FormedPart read_formed(const job::Job& job, const JobResult& run) {
    FormedPart part;
    part.reason = run.reason;
    if (run.reason != StopReason::done) {
        return part;
    }
    const StepResult& last = run.steps.back();
    for (const findings::StationFindings& at : last.findings.stations) {
        if (at.lip_depth) {
            part.depths.push_back({at.station, *at.lip_depth});
            part.flange_depths.push_back({at.station, at.flange_depth});
            part.lip_angles.push_back({at.station, *at.lip_angle});
        } else if (!is_at_opening(job.blank, at.station)) {
            part.depths.push_back({at.station, at.flange_depth});
        }
    }
    if (has_flange_holes(job.blank)) {
        part.holes = findings::formed_holes(
            *last.mesh, findings::shape_of(last.state, last.fields), after_steps(job)
        );
    }
    return part;
}

Former solved_former(int n_threads, const Monitor& monitor) {
    return [n_threads, monitor](const job::Job& job) -> Result<FormedPart> {
        RunOptions options;
        options.n_threads = n_threads;
        options.n_frames = 1;
        options.measure_bare_refactor = false;
        const Result<JobResult> run = run_job(job, options, monitor);
        if (!run) {
            return tl::unexpected(run.error());
        }
        return read_formed(job, *run);
    };
}

} // namespace flangewright::process
