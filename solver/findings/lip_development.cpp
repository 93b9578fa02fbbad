#include "solver/findings/lip_development.hpp"

#include "mesh/base/check.hpp"
#include "solver/findings/flange_development.hpp"

#include <cmath>
#include <limits>

namespace flangewright::findings {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

const job::ReturnBend& return_bend_of(const job::Job& job) {
    check(job.return_bend.has_value(), "the job has a return bend");
    return *job.return_bend;
}

double mid_radius(const job::Job& job) {
    return return_bend_of(job).nose_radius + 0.5 * job.sheet.thickness;
}

/// The formed lip's mid-surface in the section, followed from where its bend begins.
class LipPath {
public:
    explicit LipPath(const job::Job& job)
        : radius_(mid_radius(job)), bend_(lip_bend_allowance(job)), flange_(turned_angle(job)),
          sign_(return_bend_of(job).side == job::LipSide::under_web ? 1 : -1) {}

    /// How fast the distance from the bend line grows along the path.
    [[nodiscard]] double slope(double along) const {
        return std::cos(flange_ + sign_ * std::min(along, bend_) / radius_);
    }

private:
    double radius_;
    double bend_;
    double flange_;
    double sign_;
};

/// A place on the way from the lip's bend to its edge: flat, and formed in plan.
struct LipPlace {
    double flat = 0;
    double reach = 0;
};

/// One step along the formed lip, by the midpoint rule. `kappa` is the line's curvature.
LipPlace
moved_on(const LipPath& path, const LipPlace& from, double along, double step, double kappa) {
    const auto flat_per_formed = [kappa](const LipPlace& at) {
        return std::sqrt((1 - kappa * at.reach) / (1 - kappa * at.flat));
    };
    const LipPlace middle{
        from.flat + 0.5 * step * flat_per_formed(from),
        from.reach + 0.5 * step * path.slope(along + 0.25 * step)};
    return {
        from.flat + step * flat_per_formed(middle),
        from.reach + step * path.slope(along + 0.5 * step)};
}

struct LipEnds {
    LipPlace bend;
    LipPlace edge;
};

LipEnds follow_lip(const job::Job& job) {
    constexpr int n_steps = 400;
    const double kappa = job.blank.line.tightest_curvature();
    const double straight = std::max(0.0, straight_between_bends(job));
    job::Job flange = job;
    flange.blank.flange_depth = mould_setback(job) + straight;
    flange.blank.trim_allowance = 0;
    LipEnds ends;
    ends.bend.flat = developed_flange_width(flange);
    ends.bend.reach = mid_bend_reach(job) + straight * std::cos(turned_angle(job));
    const LipPath path(job);
    const double lip = std::max(0.0, return_bend_of(job).lip_depth - lip_setback(job));
    const double step = (lip_bend_allowance(job) + lip) / n_steps;
    ends.edge = ends.bend;
    for (int i = 0; i < n_steps; ++i) {
        ends.edge = moved_on(path, ends.edge, i * step, step, kappa);
    }
    return ends;
}

} // namespace

double lip_bend_allowance(const job::Job& job) {
    return return_bend_of(job).angle * mid_radius(job);
}

double lip_setback(const job::Job& job) {
    const job::ReturnBend& lip = return_bend_of(job);
    return (lip.nose_radius + job.sheet.thickness) * std::tan(0.5 * lip.angle);
}

double straight_between_bends(const job::Job& job) {
    return job.blank.flange_depth - mould_setback(job) - lip_setback(job);
}

LipDevelopment develop_lip(const job::Job& job) {
    const LipEnds ends = follow_lip(job);
    if (!std::isfinite(ends.edge.flat)) {
        return {infinite, infinite};
    }
    return {ends.bend.flat, ends.edge.flat - ends.bend.flat};
}

double lip_edge_stretch(const job::Job& job) {
    const double kappa = job.blank.line.tightest_curvature();
    const LipPlace edge = follow_lip(job).edge;
    const double left = 1 - kappa * edge.flat;
    return std::isfinite(edge.flat) && left > 0 ? (1 - kappa * edge.reach) / left - 1 : infinite;
}

} // namespace flangewright::findings
