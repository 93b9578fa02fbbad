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

/// What is looked for. mm, rad.
struct AlongSearch {
    std::vector<double> stations; ///< of the table to begin with, rising
    std::vector<double> walls; ///< and its angles
    outline::Profile wanted; ///< flange angle after release; one point: alike all along
    double slope = 0.95; ///< of the flange's angle over the wall's
    double tolerance = 0; ///< of the flange angle anywhere along the line
    double least_apart = 4; ///< a station put in keeps off the others by this
    double least_wall = 0;
    double most_wall = 0;
    int n_threads = 1;
    int n_runs_most = 8;
};

/// One whole run and the table it was made with.
struct AlongRun {
    std::vector<double> stations;
    std::vector<double> walls;
    std::vector<double> angles = {}; ///< after release, at the stations; empty: no balance, or not
                                     ///< allowed
    double most_off = 0; ///< largest distance from what is wanted, anywhere along the line
    double off_station = 0; ///< where
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
    std::function<std::optional<job::Job>(
        const std::vector<double>& stations, const std::vector<double>& walls
    )>
        job_at;
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
/// it worse, never past the bounds. Where the angle is furthest off between two stations the table
/// gets one more. Units: mm, rad. Source: derived here (docs/theory-findings.md, "Solve for").
/// Fails: see AlongEnd.
[[nodiscard]] AlongFound
find_walls(const AlongSearch& search, const AlongWorks& works, const Monitor& monitor);

} // namespace flangewright::process
