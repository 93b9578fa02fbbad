#include "solver/tooling/swept_contact.hpp"

namespace flangewright::tooling {

namespace {

double offset_of(const SweptContact& contact, const ContactNode& node) {
    return contact.face == Face::block ? -node.half_thickness : node.half_thickness;
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
    const SurfaceReading surface = contact.surface->at({at.distance, point.z()});
    reading.gap = surface.distance;
    const ContactPressure pressure = contact.law.at(surface.distance);
    if (pressure.slope == 0) {
        return reading;
    }
    reading.is_touching = true;
    const outline::LineFrame frame = contact.line.frame(at.station);
    const Eigen::Vector3d up(0, 0, 1);
    const Eigen::Vector3d normal = surface.normal[0] * frame.outward + surface.normal[1] * up;
    reading.normal = normal;
    reading.push = node.area * pressure.pressure;
    reading.gradient = -reading.push * normal;

    Eigen::Matrix<double, 3, 2> plane;
    plane << frame.outward, up;
    // Sweeping adds the turning of the outward direction with the point's station.
    const double kappa = contact.line.curvature(at.station);
    const double sweep_curvature = -surface.normal[0] * kappa / (1 - kappa * at.distance);
    Eigen::Matrix3d bend = plane * surface.curvature * plane.transpose();
    bend += sweep_curvature * frame.tangent * frame.tangent.transpose();
    reading.stiffness =
        node.area * (-pressure.slope * normal * normal.transpose() - pressure.pressure * bend);
    return reading;
}

} // namespace flangewright::tooling
