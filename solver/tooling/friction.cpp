#include "solver/tooling/friction.hpp"

#include <cmath>

namespace flangewright::tooling {

namespace {

Eigen::Matrix2d turned_by(double angle) {
    Eigen::Matrix2d matrix; // takes (0, 1), up, toward the flange
    matrix << std::cos(angle), std::sin(angle), -std::sin(angle), std::cos(angle);
    return matrix;
}

} // namespace

FrictionReading read_friction(const Sticking& sticking, const Eigen::Vector3d& point) {
    FrictionReading reading;
    if (sticking.limit <= 0) {
        return reading;
    }
    const Eigen::Vector3d& n = sticking.normal;
    const Eigen::Matrix3d along = Eigen::Matrix3d::Identity() - n * n.transpose();
    const Eigen::Vector3d slip = along * (sticking.slip + point - sticking.place);
    const double length = slip.norm();
    if (sticking.stiffness * length <= sticking.limit) {
        reading.slip = slip;
        reading.stiffness = sticking.stiffness * along;
    } else {
        const Eigen::Vector3d heading = slip / length;
        reading.slides = true;
        reading.slip = sticking.limit / sticking.stiffness * heading;
        reading.stiffness = sticking.limit / length * (along - heading * heading.transpose());
    }
    reading.gradient = sticking.stiffness * reading.slip;
    return reading;
}

Carried carry(
    const outline::BendLine& line, const Placement& from, const Placement& to, const Carried& before
) {
    const outline::LinePosition at = line.locate(before.point);
    const outline::LineFrame frame = line.frame(at.station);
    const Eigen::Matrix2d turn = turned_by(to.turn - from.turn);
    const SectionPoint place =
        turn * (SectionPoint(at.distance, before.point.z()) - from.shift) + to.shift;
    const Eigen::Vector2d direction =
        turn * Eigen::Vector2d(before.direction.dot(frame.outward), before.direction.z());
    const Eigen::Vector3d up = Eigen::Vector3d::UnitZ();
    return {
        line.point({at.station, place[0]}) + place[1] * up,
        before.direction.dot(frame.tangent) * frame.tangent + direction[0] * frame.outward
            + direction[1] * up,
    };
}

} // namespace flangewright::tooling
