#include "solver/process/outline_guess.hpp"

#include "mesh/base/check.hpp"
#include "solver/findings/flange_development.hpp"
#include "solver/findings/lip_development.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>
#include <vector>

namespace flangewright::process {

namespace {

constexpr double least_apart = 0.5; // mm, as of a table in a case file
constexpr double alike = 1e-6; // mm

/// What is developed at one place of the line.
struct Place {
    double depth = 0;
    double wall_angle = 0;
    double curvature = 0;
};

job::Job job_at(const job::Job& job, const Place& place) {
    job::Job there;
    there.sheet.thickness = job.sheet.thickness;
    there.block = job.block;
    there.block.wall_angles = {};
    there.block.wall_angle = place.wall_angle;
    there.drive = job.drive;
    there.return_bend = job.return_bend;
    there.blank.flange_depth = place.depth;
    there.blank.line = outline::BendLine::chain({{job.blank.line.length(), place.curvature}});
    return there;
}

double net_width(const job::Job& there) {
    if (there.return_bend) {
        const findings::LipDevelopment lip = findings::develop_lip(there);
        return lip.bend_begin + lip.width;
    }
    return findings::developed_flange_width(there);
}

double lip_begin(const job::Job& there) {
    return findings::develop_lip(there).bend_begin;
}

/// Mean of the line's curvature over a length about a station; where the part is cut off, of what
/// there is.
double mean_curvature(const outline::BendLine& line, double station, double length) {
    const double from = std::max(0.0, station - 0.5 * length);
    const double to = std::min(line.length(), station + 0.5 * length);
    double turned = 0;
    double begin = 0;
    for (const outline::Piece& piece : line.pieces()) {
        const double end = begin + piece.length;
        turned += piece.curvature * std::max(0.0, std::min(end, to) - std::max(begin, from));
        begin = end;
    }
    return turned / (to - from);
}

/// Where the slope of the widths may change: ends, points of the tables, and half a width to either
/// side of each joint of the line.
std::vector<double> corners(const job::Job& job, const outline::Profile& wanted, double width) {
    const outline::BendLine& line = job.blank.line;
    std::set<double> found{0, line.length()};
    for (const outline::Profile* profile : {&wanted, &job.block.wall_angles}) {
        for (const outline::ProfilePoint& point : profile->points()) {
            found.insert(std::min(point.station, line.length()));
        }
    }
    double joint = 0;
    const std::vector<outline::Piece> pieces = line.pieces();
    for (std::size_t i = 0; i + 1 < pieces.size(); ++i) {
        joint += pieces[i].length;
        found.insert(std::max(0.0, joint - 0.5 * width));
        found.insert(std::min(line.length(), joint + 0.5 * width));
    }
    std::vector<double> stations;
    for (const double station : found) {
        const bool is_clear = stations.empty() || station - stations.back() >= least_apart;
        if (is_clear && (station == line.length() || line.length() - station >= least_apart)) {
            stations.push_back(station);
        }
    }
    return stations;
}

/// A flat width developed at each of the corners; one point when all are alike.
outline::Profile developed(
    const job::Job& job, const outline::Profile& wanted, double (*width_of)(const job::Job&)
) {
    const outline::BendLine& line = job.blank.line;
    const double about = job.blank.flange_width;
    std::vector<outline::ProfilePoint> points;
    for (const double station : corners(job, wanted, about)) {
        const outline::Profile& walls = job.block.wall_angles;
        Place place;
        place.depth = wanted.is_empty() ? job.blank.flange_depth : wanted.at(station);
        place.wall_angle = walls.is_empty() ? job.block.wall_angle : walls.at(station);
        place.curvature = mean_curvature(line, station, about);
        points.push_back({station, width_of(job_at(job, place))});
    }
    const auto [least, most] = std::ranges::minmax(points, {}, &outline::ProfilePoint::value);
    if (most.value - least.value < alike) {
        points.resize(1);
    }
    return outline::Profile(std::move(points));
}

} // namespace

outline::Profile guessed_net_widths(const job::Job& job, const outline::Profile& wanted) {
    return developed(job, wanted, net_width);
}

outline::Profile guessed_lip_begins(const job::Job& job) {
    check(job.return_bend.has_value(), "the job has a lip");
    return developed(job, {}, lip_begin);
}

} // namespace flangewright::process
