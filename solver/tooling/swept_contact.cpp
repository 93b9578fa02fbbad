#include "solver/tooling/swept_contact.hpp"

namespace flangewright::tooling {

namespace {

double offset_of(const SweptContact& contact, const ContactNode& node) {
    return contact.face == Face::block ? -node.half_thickness : node.half_thickness;
}

struct GapSlopes {
    Eigen::Vector3d gradient;
    Eigen::Matrix3d bend;
};

// First and second derivative of the gap over the point in space.
GapSlopes gap_slopes(
    const outline::BendLine& line, const outline::LinePosition& at, const ChangingReading& along
) {
    const outline::LineFrame frame = line.frame(at.station);
    const SurfaceReading& surface = along.surface;
    Eigen::Matrix<double, 3, 2> plane;
    plane << frame.outward, Eigen::Vector3d::UnitZ();
    // Sweeping adds the turning of the outward direction with the point's station.
    const double kappa = line.curvature(at.station);
    const double widening = 1 / (1 - kappa * at.distance);
    const double sweep_curvature = -surface.normal[0] * kappa * widening;
    GapSlopes gap{plane * surface.normal, plane * surface.curvature * plane.transpose()};
    gap.bend += sweep_curvature * frame.tangent * frame.tangent.transpose();
    if (along.slope == 0 && along.bend == 0 && along.turn.isZero(0)) {
        return gap;
    }
    const Eigen::Vector3d station_slope = widening * frame.tangent;
    gap.gradient += along.slope * station_slope;
    // The station's own second derivative, then what the tool adds along the line.
    const Eigen::Matrix3d mixed =
        along.slope * kappa * widening * frame.outward * station_slope.transpose()
        + plane * along.turn * station_slope.transpose();
    gap.bend += mixed + mixed.transpose();
    gap.bend += along.bend * station_slope * station_slope.transpose();
    return gap;
}

} // namespace

Eigen::Vector3d touching_point(const SweptContact& contact, const ContactNode& node) {
    return node.position + offset_of(contact, node) * node.director;
}

ContactReading read_contact(const SweptContact& contact, const ContactNode& node) {
    ContactReading reading;
    reading.offset = offset_of(contact, node);
    const Eigen::Vector3d point = touching_point(contact, node);
    const outline::LinePosition at = contact.line.locate(point);
    const ChangingReading along = contact.surface->at_station({at.distance, point.z()}, at.station);
    reading.gap = along.surface.distance;
    const ContactPressure pressure = contact.law.at(reading.gap);
    if (pressure.slope == 0) {
        return reading;
    }
    reading.is_touching = true;
    const GapSlopes gap = gap_slopes(contact.line, at, along);
    // Where the tool stands aslant along the line the gap grows faster than the distance off it.
    const double steepness = gap.gradient.norm();
    reading.normal = gap.gradient / steepness;
    reading.push = node.area * pressure.pressure * steepness;
    reading.gradient = -node.area * pressure.pressure * gap.gradient;
    reading.stiffness = node.area
        * (-pressure.slope * gap.gradient * gap.gradient.transpose() - pressure.pressure * gap.bend
        );
    return reading;
}

} // namespace flangewright::tooling
