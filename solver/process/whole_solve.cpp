#include "solver/process/whole_solve.hpp"

#include <string>
#include <utility>

namespace flangewright::process {

WholeSolve solve_whole(
    const ValueSearch& search,
    const SearchWorks& works,
    double value,
    int number,
    const Monitor& monitor
) {
    WholeSolve whole;
    std::optional<job::Job> job = works.quick.job_at(value);
    if (!job) {
        return whole;
    }
    Monitor told;
    told.stop = monitor.stop;
    told.on_progress = [&monitor, number](Progress progress) {
        progress.step = "whole run " + std::to_string(number) + ": " + progress.step;
        monitor.report(progress);
    };
    job->scatter.reset();
    whole.close_share = job->close_share;
    RunOptions options;
    options.n_threads = search.n_threads;
    options.measure_bare_refactor = false;
    options.estimates_mesh_error = true;
    Result<JobResult> run = works.run_job(*job, options, told);
    if (run && run->reason == StopReason::done) {
        whole.result = std::make_shared<const JobResult>(std::move(*run));
    }
    return whole;
}

} // namespace flangewright::process
