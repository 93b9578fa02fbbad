#include "solver/tooling/swept_contact.hpp"

namespace flangewright::tooling {

ContactReading read_contact(const SweptContact& contact, const ContactNode& node) {
    ContactReading reading;
    reading.offset = contact.face == Face::block ? -node.half_thickness : node.half_thickness;
    const Eigen::Vector3d point = node.position + reading.offset * node.director;
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
    reading.gradient = -node.area * pressure.pressure * normal;

    Eigen::Matrix<double, 3, 2> plane;
    plane << frame.outward, up;
    // Sweeping adds the turning of the outward direction with the point's station.
    const double kappa = contact.line.curvature();
    const double sweep_curvature = -surface.normal[0] * kappa / (1 - kappa * at.distance);
    Eigen::Matrix3d bend = plane * surface.curvature * plane.transpose();
    bend += sweep_curvature * frame.tangent * frame.tangent.transpose();
    reading.stiffness =
        node.area * (-pressure.slope * normal * normal.transpose() - pressure.pressure * bend);
    return reading;
}

} // namespace flangewright::tooling
