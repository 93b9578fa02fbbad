#include "solver/process/even_angle.hpp"

#include "solver/process/slice_share.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>

namespace flangewright::process {

namespace {

using findings::StationFindings;

double angle_at(const std::vector<StationFindings>& all, double station) {
    const auto next = std::ranges::lower_bound(all, station, {}, &StationFindings::station);
    if (next == all.begin()) {
        return all.front().flange_angle;
    }
    if (next == all.end()) {
        return all.back().flange_angle;
    }
    const StationFindings& before = *std::prev(next);
    const double share = (station - before.station) / (next->station - before.station);
    return before.flange_angle + share * (next->flange_angle - before.flange_angle);
}

class Search {
public:
    Search(const AlongSearch& search, const AlongWorks& works, const Monitor& monitor)
        : search_(search), works_(works), monitor_(monitor) {}

    AlongFound run() {
        std::vector<double> walls = search_.walls;
        double share = 1; // of what is lacking
        for (int i = 0; i < search_.n_runs_most; ++i) {
            std::shared_ptr<const JobResult> result = i == 0 ? works_.first : nullptr;
            const bool is_known = result != nullptr;
            AlongRun now = is_known ? read(walls, *result) : solve(walls, result);
            if (monitor_.stop.stop_requested()) {
                return ended(AlongEnd::stopped);
            }
            const bool has_angles = !now.angles.empty();
            const bool is_better =
                has_angles && (!found_.nearest || now.most_off < found_.nearest->most_off);
            if (!is_known) {
                tell(now);
            }
            if (is_better) {
                found_.nearest = std::move(now);
                found_.check = result;
                share = 1;
            } else {
                share *= 0.5;
            }
            if (!found_.nearest) {
                return ended(AlongEnd::no_balance);
            }
            if (found_.nearest->most_off <= search_.tolerance) {
                return ended(AlongEnd::found);
            }
            std::vector<double> next = moved(*found_.nearest, share);
            if (next == walls || share < 0.2) {
                break;
            }
            walls = std::move(next);
        }
        return ended(AlongEnd::not_near);
    }

private:
    AlongRun read(const std::vector<double>& walls, const JobResult& result) const {
        AlongRun run{walls, angles_at(result, search_.stations)};
        for (std::size_t i = 0; i < run.angles.size(); ++i) {
            run.most_off = std::max(run.most_off, std::abs(run.angles[i] - search_.wanted[i]));
        }
        return run;
    }

    AlongRun solve(const std::vector<double>& walls, std::shared_ptr<const JobResult>& result) {
        const auto begin = std::chrono::steady_clock::now();
        Monitor told;
        told.stop = monitor_.stop;
        told.on_progress = [this](Progress progress) {
            progress.step = "angles along, run " + std::to_string(found_.runs.size() + 1) + ": "
                + progress.step;
            monitor_.report(progress);
        };
        AlongRun now{walls};
        if (std::optional<job::Job> job = works_.job_at(walls)) {
            job->scatter.reset();
            RunOptions options;
            options.n_threads = search_.n_threads;
            options.measure_bare_refactor = false;
            options.estimates_mesh_error = true;
            Result<JobResult> run = works_.run_job(*job, options, told);
            if (run && run->reason == StopReason::done) {
                result = std::make_shared<const JobResult>(std::move(*run));
                now = read(walls, *result);
            }
        }
        const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - begin;
        now.seconds = spent.count();
        return now;
    }

    [[nodiscard]] std::vector<double> moved(const AlongRun& from, double share) const {
        std::vector<double> walls = from.walls;
        for (std::size_t i = 0; i < walls.size(); ++i) {
            const double lacking = search_.wanted[i] - from.angles[i];
            walls[i] = works_.rounded(std::clamp(
                walls[i] + share * lacking / search_.slope, search_.least_wall, search_.most_wall
            ));
        }
        return walls;
    }

    void tell(const AlongRun& run) {
        found_.runs.push_back(run);
        if (works_.on_run) {
            works_.on_run(run);
        }
    }

    AlongFound ended(AlongEnd end) {
        found_.end = end;
        return found_;
    }

    const AlongSearch& search_;
    const AlongWorks& works_;
    const Monitor& monitor_;
    AlongFound found_;
};

} // namespace

std::vector<double> angles_at(const JobResult& run, const std::vector<double>& stations) {
    for (auto step = run.steps.rbegin(); step != run.steps.rend(); ++step) {
        if (job::ends_on_block(step->kind) || step->findings.stations.empty()) {
            continue;
        }
        std::vector<double> angles;
        for (const double station : stations) {
            angles.push_back(angle_at(step->findings.stations, station));
        }
        return angles;
    }
    return {};
}

AlongFound find_walls(const AlongSearch& search, const AlongWorks& works, const Monitor& monitor) {
    return Search(search, works, monitor).run();
}

} // namespace flangewright::process
