#include "solver/process/blank_outline.hpp"

#include "solver/findings/lip_development.hpp"
#include "solver/process/outline_guess.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

namespace flangewright::process {

namespace {

using outline::Profile;
using outline::ProfilePoint;

constexpr double alike = 0.02; // mm; widths that differ by less are one: nobody cuts finer
constexpr double steepest = 0.9; // of the edge over the line; the case file allows 1
constexpr double least_gain = 0.95; // of the largest miss, for another round to be worth its time

double wanted_at(const job::Job& job, const Profile& wanted, double station) {
    if (job.return_bend) {
        return job.return_bend->lip_depth;
    }
    return wanted.is_empty() ? job.blank.flange_depth : wanted.at(station);
}

/// Stations of the formed part at which the width is corrected: its ends, and others that lie far
/// enough apart. They are stations of its mesh, so that corners there cost no further elements.
std::vector<double> stations_to_correct(const FormedPart& part, double least_apart) {
    std::vector<double> stations;
    const double end = part.depths.back().station;
    for (const ProfilePoint& at : part.depths) {
        const bool is_apart = stations.empty() || at.station - stations.back() >= least_apart;
        if (is_apart && (at.station == end || end - at.station >= 0.5 * least_apart)) {
            stations.push_back(at.station);
        }
    }
    if (stations.back() < end) {
        stations.push_back(end);
    }
    return stations;
}

/// No steeper than a blank may be, by lowering what stands out.
void flatten(std::vector<ProfilePoint>& points) {
    for (std::size_t i = 1; i < points.size(); ++i) {
        const double rise = steepest * (points[i].station - points[i - 1].station);
        points[i].value = std::min(points[i].value, points[i - 1].value + rise);
    }
    for (std::size_t i = points.size() - 1; i-- > 0;) {
        const double rise = steepest * (points[i + 1].station - points[i].station);
        points[i].value = std::min(points[i].value, points[i + 1].value + rise);
    }
}

/// Net widths a blank can have: all bends and some straight metal past them, and on a concave line
/// some metal inside the cut edge.
struct Limits {
    double least = 0;
    double most = 0;
};

Limits limits_of(const job::Job& job) {
    const double t = job.sheet.thickness;
    const double bends = job.return_bend ? job.blank.lip_begin() + findings::lip_bend_allowance(job)
                                         : job.block.wall_angle * (job.block.nose_radius + 0.5 * t);
    return {bends + 2 * t, job.blank.line.concave_radius() - 2 * t - job.blank.trim_allowance};
}

Profile corrected(const Profile& net, const BlankOutline& formed, const job::Job& job) {
    FormedPart part;
    std::vector<ProfilePoint> misses;
    for (const DepthAt& at : formed.depths) {
        part.depths.push_back({at.station, at.reached});
        misses.push_back({at.station, at.miss()});
    }
    const Profile miss(misses);
    std::set<double> stations;
    // A case has room for 100 points in a table.
    const double apart = std::max(0.25 * job.blank.flange_width, job.blank.line.length() / 80);
    for (const double station : stations_to_correct(part, apart)) {
        stations.insert(station);
    }
    if (net.points().size() > 1) { // corners of tables and joints stay
        for (const ProfilePoint& point : net.points()) {
            const auto next = stations.lower_bound(point.station - 0.5);
            if (next == stations.end() || *next > point.station + 0.5) {
                stations.insert(point.station);
            }
        }
    }
    const Limits limits = limits_of(job);
    std::vector<ProfilePoint> points;
    for (const double station : stations) {
        const double width = net.at(station) - miss.at(station);
        points.push_back({station, std::max(limits.least, std::min(limits.most, width))});
    }
    flatten(points);
    const auto [least, most] = std::ranges::minmax(points, {}, &ProfilePoint::value);
    return most.value - least.value < alike ? Profile({{0, 0.5 * (least.value + most.value)}})
                                            : Profile(std::move(points));
}

BlankOutline
read_part(const job::Job& job, const Profile& wanted, const Profile& net, const FormedPart& part) {
    BlankOutline outline;
    outline.net = net;
    outline.reason = part.reason;
    for (const ProfilePoint& at : part.depths) {
        outline.depths.push_back({at.station, wanted_at(job, wanted, at.station), at.value});
    }
    const LargestMiss largest = largest_of(outline.depths);
    outline.largest_miss = std::abs(largest.miss);
    outline.miss_station = largest.station;
    for (const ProfilePoint& at : part.flange_depths) {
        outline.flange_depths.push_back({at.station, job.blank.flange_depth, at.value});
    }
    outline.lip_angles = part.lip_angles;
    outline.holes = part.holes;
    return outline;
}

bool is_in_web(const outline::Hole& hole) {
    return hole.distance < 0;
}

bool has_flange_openings(const job::Job& job) {
    const outline::Openings& openings = job.blank.openings;
    return !openings.notches.empty() || !openings.tabs.empty()
        || !std::ranges::all_of(openings.holes, is_in_web);
}

/// Forms, and where that can't be done leaves the flange's openings out from then on.
class Forming {
public:
    Forming(const job::Job& job, const Former& former) : base_(job_to_form(job)), former_(former) {}

    [[nodiscard]] const job::Job& base() const { return base_; }
    [[nodiscard]] bool leaves_openings_out() const { return leaves_openings_out_; }

    Result<FormedPart> form(const Profile& net) {
        Result<FormedPart> part = former_(with_net_widths(base_, net));
        const bool is_formed = part && part->reason != StopReason::no_equilibrium;
        if (is_formed || !has_flange_openings(base_)) {
            return part;
        }
        base_ = without_flange_openings(base_);
        leaves_openings_out_ = true;
        return former_(with_net_widths(base_, net));
    }

private:
    job::Job base_;
    const Former& former_;
    bool leaves_openings_out_ = false;
};

} // namespace

job::Job with_net_widths(const job::Job& job, const Profile& net) {
    job::Job changed = job;
    job::Blank& blank = changed.blank;
    const double lip_begin = blank.lip_begin();
    blank.flange_width = net.most() + blank.trim_allowance;
    blank.lip_width = job.return_bend ? net.most() - lip_begin : 0;
    blank.flange_widths = net.points().size() > 1 ? net.raised_by(blank.trim_allowance) : Profile{};
    return changed;
}

job::Job job_to_form(const job::Job& job) {
    job::Job changed = job;
    const bool is_trimmed = std::ranges::find(job.steps, job::StepKind::trim) != job.steps.end();
    if (job.blank.trim_allowance > 0 && !is_trimmed) {
        changed.steps.push_back(job::StepKind::trim);
    }
    return changed;
}

job::Job without_flange_openings(const job::Job& job) {
    job::Job changed = job;
    outline::Openings& openings = changed.blank.openings;
    openings.notches.clear();
    openings.tabs.clear();
    std::erase_if(openings.holes, [](const outline::Hole& hole) { return !is_in_web(hole); });
    return changed;
}

LargestMiss largest_of(const std::vector<DepthAt>& depths) {
    LargestMiss largest;
    for (const DepthAt& at : depths) {
        if (std::abs(at.miss()) >= std::abs(largest.miss)) {
            largest = {at.miss(), at.station};
        }
    }
    return largest;
}

bool BlankOutline::meets(double within) const {
    return !depths.empty() && largest_miss <= within
        && std::abs(largest_of(flange_depths).miss) <= within;
}

Result<BlankOutline> find_outline(
    const job::Job& job, const Profile& wanted, const OutlineSearch& search, const Former& former
) {
    Forming forming(job, former);
    std::optional<BlankOutline> best;
    Profile net = guessed_net_widths(forming.base(), wanted);
    for (int round = 1; round <= search.most_rounds; ++round) {
        const Result<FormedPart> part = forming.form(net);
        if (!part) {
            return tl::unexpected(part.error());
        }
        const BlankOutline formed = read_part(forming.base(), wanted, net, *part);
        if (part->reason != StopReason::done) {
            BlankOutline ended = best.value_or(formed);
            ended.reason = part->reason;
            ended.n_rounds = round;
            return ended;
        }
        const bool is_better = !best || formed.largest_miss < least_gain * best->largest_miss;
        if (!best || formed.largest_miss < best->largest_miss) {
            best = formed;
        }
        best->n_rounds = round;
        best->leaves_openings_out = forming.leaves_openings_out();
        if (best->largest_miss <= search.within || !is_better) {
            break; // of a flange with a lip no width changes the flange's own depth
        }
        net = corrected(net, formed, forming.base());
    }
    return *best;
}

} // namespace flangewright::process
