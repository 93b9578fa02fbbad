#include "solver/findings/flange_depth.hpp"

#include <cmath>

namespace flangewright::findings {

double flange_depth(
    const PartShape& shape,
    const Section& section,
    const FlangeLine& line,
    int bend_tangent,
    int edge
) {
    constexpr double least_slope = 0.0175; // sine of one degree
    const Eigen::Vector2d at_tangent = section.at(shape.positions.col(bend_tangent));
    const Eigen::Vector2d at_edge = section.at(shape.positions.col(edge));
    const Eigen::Vector2d d = line.direction;
    if (std::abs(d.y()) < least_slope) {
        return d.dot(at_edge - at_tangent);
    }
    // Turned a quarter back from the flange's direction: away from the block.
    const Eigen::Vector2d outer_normal(-d.y(), d.x());
    const Eigen::Vector2d on_outer_face = line.point + 0.5 * line.thickness * outer_normal;
    const double web_outer_face = at_tangent.y() + 0.5 * shape.thickness(bend_tangent);
    const double along = (web_outer_face - on_outer_face.y()) / d.y();
    const Eigen::Vector2d mould_point = on_outer_face + along * d;
    return d.dot(at_edge - mould_point);
}

} // namespace flangewright::findings
