#include "solver/findings/flange_development.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <utility>
#include <vector>

namespace flangewright::findings {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

// Symbols as in docs/theory-findings.md: R_t radius of the bend tangent line, at its tightest place
// if it has several; k = +1 concave, -1 convex, c = cosine of the turned angle, b = bend allowance.

/// Sign of the curve: the radius of a strip falls (+1) or grows (-1) away from the bend line.
double curve_sign(const job::Job& job) {
    return job.blank.line.tightest_curvature() > 0 ? 1.0 : -1.0;
}

bool is_straight(const job::Job& job) {
    return job.blank.line.tightest_curvature() == 0;
}

double tightest_radius(const job::Job& job) {
    return 1.0 / std::abs(job.blank.line.tightest_curvature());
}

double mid_bend_radius(const job::Job& job) {
    return job.block.nose_radius + 0.5 * job.sheet.thickness;
}

/// Integral of sqrt(r - slope u) for u from 0 to length; written without a difference of powers so
/// that it holds for slope = 0. Infinite when the radius would pass through zero.
double root_integral(double r, double slope, double length) {
    const double end = r - slope * length;
    if (r <= 0 || end < 0) {
        return infinite;
    }
    const double a = std::sqrt(r);
    const double b = std::sqrt(end);
    return 2.0 / 3.0 * length * (a * a + a * b + b * b) / (a + b);
}

/// Inverse of root_integral(): the length that gives the integral. Infinite when there is none.
double length_for(double r, double slope, double integral) {
    if (r <= 0 || !std::isfinite(integral)) {
        return infinite;
    }
    const double used = 1.5 * slope * integral / (r * std::sqrt(r));
    if (used >= 1) {
        return infinite;
    }
    if (std::abs(used) < 1e-12) {
        return integral / std::sqrt(r);
    }
    return -r / slope * std::expm1(2.0 / 3.0 * std::log1p(-used));
}

/// Radius in plan of the flat strip, and of the formed mid-surface, where the straight part begins.
struct StraightPart {
    double flat_radius;
    double formed_radius;
    double flat_slope; // loss of radius per mm of flat width
    double formed_slope; // loss of radius per mm along the formed flange
};

StraightPart straight_part(const job::Job& job) {
    const double k = curve_sign(job);
    const double R_t = tightest_radius(job);
    const double angle = turned_angle(job);
    return {R_t - k * bend_allowance(job), R_t - k * mid_bend_reach(job), k, k * std::cos(angle)};
}

/// Formed length of the straight part for its flat length.
double formed_length(const job::Job& job, double flat_length) {
    if (is_straight(job)) {
        return flat_length;
    }
    const StraightPart part = straight_part(job);
    const double integral = root_integral(part.flat_radius, part.flat_slope, flat_length);
    return length_for(part.formed_radius, part.formed_slope, integral);
}

double flat_length(const job::Job& job, double formed) {
    if (is_straight(job)) {
        return formed;
    }
    const StraightPart part = straight_part(job);
    const double integral = root_integral(part.formed_radius, part.formed_slope, formed);
    return length_for(part.flat_radius, part.flat_slope, integral);
}

/// Distance of the formed edge's mid-surface from the bend tangent line, in plan.
double formed_reach(const job::Job& job, double flat_width) {
    const double R_m = mid_bend_radius(job);
    const double angle = turned_angle(job);
    const double past_bend = flat_width - bend_allowance(job);
    if (past_bend <= 0) {
        return R_m * std::sin(flat_width / R_m);
    }
    // At a square wall the length does not matter, and it may be infinite: keep 0 * infinity out.
    const double length = formed_length(job, past_bend);
    return mid_bend_reach(job) + (std::isfinite(length) ? length * std::cos(angle) : 0);
}

} // namespace

double turned_angle(const job::Job& job) {
    return std::min(job.block.wall_angle, job.drive.angle);
}

double bend_allowance(const job::Job& job) {
    return turned_angle(job) * mid_bend_radius(job);
}

double mid_bend_reach(const job::Job& job) {
    return mid_bend_radius(job) * std::sin(turned_angle(job));
}

double mould_setback(const job::Job& job) {
    return (job.block.nose_radius + job.sheet.thickness) * std::tan(0.5 * turned_angle(job));
}

double developed_flange_width(const job::Job& job) {
    const double straight = std::max(0.0, job.blank.flange_depth - mould_setback(job));
    return bend_allowance(job) + flat_length(job, straight) + job.blank.trim_allowance;
}

outline::Profile developed_flange_widths(const job::Job& job, const outline::Profile& depths) {
    const outline::Profile& walls = job.block.wall_angles;
    std::set<double> stations;
    for (const outline::Profile* profile : {&depths, &walls}) {
        for (const outline::ProfilePoint& point : profile->points()) {
            stations.insert(point.station);
        }
    }
    std::vector<outline::ProfilePoint> widths;
    job::Job there = job;
    there.block.wall_angles = {};
    for (const double station : stations) {
        there.blank.flange_depth = depths.is_empty() ? job.blank.flange_depth : depths.at(station);
        there.block.wall_angle = walls.is_empty() ? job.block.wall_angle : walls.at(station);
        widths.push_back({station, developed_flange_width(there)});
    }
    return outline::Profile(std::move(widths));
}

double formed_flange_depth(const job::Job& job, double flat_width) {
    const double straight = std::max(0.0, flat_width - bend_allowance(job));
    return mould_setback(job) + formed_length(job, straight);
}

EdgeRadii edge_radii(const job::Job& job, double flat_width) {
    if (is_straight(job)) {
        return {infinite, infinite, 0};
    }
    const double k = curve_sign(job);
    const double R_t = tightest_radius(job);
    EdgeRadii radii;
    radii.flat = R_t - k * flat_width;
    radii.formed = R_t - k * formed_reach(job, flat_width);
    radii.stretch = radii.flat > 0 ? radii.formed / radii.flat - 1 : infinite;
    return radii;
}

double edge_stretch_at(const job::Job& job, double flat_width, double curvature) {
    job::Job there;
    there.sheet.thickness = job.sheet.thickness;
    there.block = job.block;
    there.drive = job.drive;
    there.blank.line = outline::BendLine::chain({{job.blank.line.length(), curvature}});
    return edge_radii(there, flat_width).stretch;
}

} // namespace flangewright::findings
