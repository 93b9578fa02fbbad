// Looks for the wall angles along the line that give the wanted flange angle at each station.
#pragma once

#include "mesh/base/progress.hpp"
#include "mesh/base/result.hpp"
#include "solver/process/run_job.hpp"

#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace flangewright::process {

/// What is looked for; one number per station. mm, rad.
struct AlongSearch {
    std::vector<double> stations; ///< rising
    std::vector<double> wanted; ///< flange angle after release
    std::vector<double> walls; ///< to begin with
    double slope = 0.95; ///< of the flange's angle over the wall's
    double tolerance = 0; ///< of the flange angle at these stations
    double least_wall = 0;
    double most_wall = 0;
    int n_threads = 1;
    int n_runs_most = 6;
};

/// One whole run.
struct AlongRun {
    std::vector<double> walls;
    std::vector<double> angles = {}; ///< after release; empty: no balance, or not allowed
    double most_off = 0; ///< largest distance from what is wanted, at these stations
    double seconds = 0;
};

enum class AlongEnd {
    found,
    not_near, ///< the runs allowed are used, or no further run came nearer
    no_balance,
    stopped,
};

/// How it ended; walls, angles and check of the nearest run.
struct AlongFound {
    AlongEnd end = AlongEnd::stopped;
    std::optional<AlongRun> nearest;
    std::vector<AlongRun> runs;
    std::shared_ptr<const JobResult> check;
};

/// The works, replaceable so that tests are quick.
struct AlongWorks {
    std::function<std::optional<job::Job>(const std::vector<double>& walls)> job_at;
    std::function<Result<JobResult>(const job::Job&, const RunOptions&, const Monitor&)> run_job;
    std::function<double(double)> rounded; ///< a wall's angle as it will be written
    std::function<void(const AlongRun&)> on_run;
    std::shared_ptr<const JobResult> first = {}; ///< a run at the walls to begin with, if there is
};

/// Flange angle after the last step off the block at each station, straight between the run's own.
/// Units: mm, rad. Source: docs/theory-findings.md, "Flange angle". Fails: empty when the part is
/// never let go.
[[nodiscard]] std::vector<double>
angles_at(const JobResult& run, const std::vector<double>& stations);

/// Whole runs, each wall moved by what its station lacks over the slope, half as far when that made
/// it worse, never past the bounds. Units: mm, rad. Source: derived here (docs/theory-findings.md,
/// "Solve for"). Fails: see AlongEnd.
[[nodiscard]] AlongFound
find_walls(const AlongSearch& search, const AlongWorks& works, const Monitor& monitor);

} // namespace flangewright::process
