#include "solver/findings/lip.hpp"

#include "solver/findings/lip_development.hpp"

#include <cmath>

namespace flangewright::findings {

namespace {

/// A quarter turn back from a direction that runs toward the free edge: toward the outer face.
Eigen::Vector2d outer_normal(const Eigen::Vector2d& direction) {
    return {-direction.y(), direction.x()};
}

double cross(const Eigen::Vector2d& a, const Eigen::Vector2d& b) {
    return a.x() * b.y() - a.y() * b.x();
}

/// Where two lines meet; the second one's own point when they run the same way.
Eigen::Vector2d meeting(
    const Eigen::Vector2d& point,
    const Eigen::Vector2d& direction,
    const Eigen::Vector2d& other,
    const Eigen::Vector2d& other_direction
) {
    constexpr double least_sine = 0.0175; // of one degree
    const double sine = cross(direction, other_direction);
    if (std::abs(sine) < least_sine) {
        return other;
    }
    return point + cross(other - point, other_direction) / sine * direction;
}

} // namespace

FitWindow lip_window(const job::Job& job, double station) {
    const double net_edge = job.blank.flange_width_at(station) - job.blank.trim_allowance;
    return straight_window(job.blank.lip_begin() + lip_bend_allowance(job), net_edge);
}

LipReading read_lip(
    const FlangeLine& flange,
    const FlangeLine& lip,
    const Eigen::Vector2d& edge,
    double web_outer_face,
    job::LipSide side
) {
    // Under the web the outer face is the outside of the lip's bend, else the block face.
    const double sign = side == job::LipSide::under_web ? 1 : -1;
    const Eigen::Vector2d on_flange =
        flange.point + sign * 0.5 * flange.thickness * outer_normal(flange.direction);
    const Eigen::Vector2d on_lip =
        lip.point + sign * 0.5 * lip.thickness * outer_normal(lip.direction);
    const Eigen::Vector2d corner = meeting(on_flange, flange.direction, on_lip, lip.direction);
    const Eigen::Vector2d top = meeting(
        on_flange, flange.direction, Eigen::Vector2d(0, web_outer_face), Eigen::Vector2d(1, 0)
    );
    LipReading reading;
    reading.angle = -sign
        * std::atan2(cross(flange.direction, lip.direction), flange.direction.dot(lip.direction));
    reading.depth = lip.direction.dot(edge - corner);
    reading.flange_depth = flange.direction.dot(corner - top);
    reading.is_sparse = lip.is_sparse;
    return reading;
}

} // namespace flangewright::findings
