#include "solver/process/even_angle.hpp"

#include "solver/process/slice_share.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <span>
#include <utility>

namespace flangewright::process {

namespace {

using findings::StationFindings;

double angle_at(std::span<const StationFindings> all, double station) {
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

/// The findings after the last step off the block; none when the part is never let go.
std::span<const StationFindings> loose_stations(const JobResult& run) {
    for (auto step = run.steps.rbegin(); step != run.steps.rend(); ++step) {
        if (!job::ends_on_block(step->kind) && !step->findings.stations.empty()) {
            return step->findings.stations;
        }
    }
    return {};
}

/// Wall angles at stations.
struct WallTable {
    std::vector<double> stations;
    std::vector<double> walls;

    bool operator==(const WallTable&) const = default;

    [[nodiscard]] double at(double station) const {
        std::vector<outline::ProfilePoint> points;
        for (std::size_t i = 0; i < stations.size(); ++i) {
            points.push_back({stations[i], walls[i]});
        }
        return outline::Profile(std::move(points)).at(station);
    }
    [[nodiscard]] bool has_room_at(double station, double apart) const {
        return std::ranges::none_of(stations, [&](double other) {
            return std::abs(other - station) < apart;
        });
    }
    void put_in(double station, double wall) {
        const auto next = std::ranges::upper_bound(stations, station);
        walls.insert(walls.begin() + (next - stations.begin()), wall);
        stations.insert(next, station);
    }
};

class Search {
public:
    Search(const AlongSearch& search, const AlongWorks& works, const Monitor& monitor)
        : search_(search), works_(works), monitor_(monitor) {}

    AlongFound run() {
        WallTable table{search_.stations, search_.walls};
        double share = 1; // of what is lacking
        for (int i = 0; i < search_.n_runs_most; ++i) {
            std::shared_ptr<const JobResult> result = i == 0 ? works_.first : nullptr;
            const bool is_known = result != nullptr;
            AlongRun now = is_known ? read(table, *result) : solve(table, result);
            if (monitor_.stop.stop_requested()) {
                return ended(AlongEnd::stopped);
            }
            if (!is_known) {
                tell(now);
            }
            share = keep_if_better(std::move(now), result) ? 1 : 0.5 * share;
            if (!found_.nearest) {
                return ended(AlongEnd::no_balance);
            }
            if (found_.nearest->most_off <= search_.tolerance) {
                return ended(AlongEnd::found);
            }
            WallTable next = moved(share);
            if (next == table || share < 0.2) {
                break;
            }
            table = std::move(next);
        }
        return ended(AlongEnd::not_near);
    }

private:
    bool keep_if_better(AlongRun now, const std::shared_ptr<const JobResult>& result) {
        const bool is_better =
            !now.angles.empty() && (!found_.nearest || now.most_off < found_.nearest->most_off);
        if (is_better) {
            found_.nearest = std::move(now);
            found_.check = result;
        }
        return is_better;
    }

    [[nodiscard]] double lacking_at(const JobResult& result, double station) const {
        return search_.wanted.at(station) - angles_at(result, {station}).front();
    }

    AlongRun read(const WallTable& table, const JobResult& result) const {
        AlongRun run{table.stations, table.walls, angles_at(result, table.stations)};
        const auto look = [&](double station) {
            const double off = std::abs(lacking_at(result, station));
            if (off > run.most_off) {
                run.most_off = off;
                run.off_station = station;
            }
        };
        for (const StationFindings& at : loose_stations(result)) {
            look(at.station);
        }
        for (const double station : table.stations) {
            if (!run.angles.empty()) {
                look(station);
            }
        }
        return run;
    }

    AlongRun solve(const WallTable& table, std::shared_ptr<const JobResult>& result) {
        const auto begin = std::chrono::steady_clock::now();
        Monitor told;
        told.stop = monitor_.stop;
        told.on_progress = [this](Progress progress) {
            progress.step = "angles along, run " + std::to_string(found_.runs.size() + 1) + ": "
                + progress.step;
            monitor_.report(progress);
        };
        AlongRun now{table.stations, table.walls};
        if (std::optional<job::Job> job = works_.job_at(table.stations, table.walls)) {
            job->scatter.reset();
            RunOptions options;
            options.n_threads = search_.n_threads;
            options.measure_bare_refactor = false;
            options.estimates_mesh_error = true;
            Result<JobResult> run = works_.run_job(*job, options, told);
            if (run && run->reason == StopReason::done) {
                result = std::make_shared<const JobResult>(std::move(*run));
                now = read(table, *result);
            }
        }
        const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - begin;
        now.seconds = spent.count();
        return now;
    }

    /// The nearest table, each wall moved, and a station put in where it is furthest off.
    [[nodiscard]] WallTable moved(double share) const {
        const AlongRun& from = *found_.nearest;
        const WallTable old{from.stations, from.walls};
        const auto corrected = [&](double station) {
            const double lacking = lacking_at(*found_.check, station);
            return works_.rounded(std::clamp(
                old.at(station) + share * lacking / search_.slope,
                search_.least_wall,
                search_.most_wall
            ));
        };
        WallTable next{from.stations, {}};
        for (const double station : from.stations) {
            next.walls.push_back(corrected(station));
        }
        if (old.has_room_at(from.off_station, search_.least_apart)) {
            next.put_in(from.off_station, corrected(from.off_station));
        }
        return next;
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
    const std::span<const StationFindings> all = loose_stations(run);
    std::vector<double> angles;
    for (const double station : stations) {
        if (!all.empty()) {
            angles.push_back(angle_at(all, station));
        }
    }
    return angles;
}

AlongFound find_walls(const AlongSearch& search, const AlongWorks& works, const Monitor& monitor) {
    return Search(search, works, monitor).run();
}

} // namespace flangewright::process
