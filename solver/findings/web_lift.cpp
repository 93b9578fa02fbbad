#include "solver/findings/web_lift.hpp"

#include "mesh/base/check.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <array>

namespace flangewright::findings {

namespace {

constexpr double on_the_line = 1e-6; // mm of flat distance that still counts as the bend tangent

Eigen::Vector3d block_face_point(const PartShape& shape, int node) {
    return shape.positions.col(node) - 0.5 * shape.thickness(node) * shape.directors.col(node);
}

bool is_web(const grid::SheetMesh& mesh, int node) {
    return mesh.distance(node) <= on_the_line;
}

/// Centroid of the web's block face by area; the plain mean when the web has no whole element.
Eigen::Vector3d centroid_of_web(
    const grid::SheetMesh& mesh, const PartShape& shape, const Eigen::Matrix3Xd& points
) {
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    double area = 0;
    for (const std::array<int, 4>& quad : mesh.quads) {
        if (!std::ranges::all_of(quad, [&](int node) { return is_web(mesh, node); })) {
            continue;
        }
        std::array<Eigen::Vector3d, 4> corner;
        std::ranges::transform(quad, corner.begin(), [&](int node) {
            return block_face_point(shape, node);
        });
        const double part = 0.5 * (corner[2] - corner[0]).cross(corner[3] - corner[1]).norm();
        sum += part * 0.25 * (corner[0] + corner[1] + corner[2] + corner[3]);
        area += part;
    }
    if (area > 0) {
        return sum / area;
    }
    return points.rowwise().mean();
}

} // namespace

TiltDirections free_tilts(const job::Blank& blank) {
    const bool start_continues = blank.start == job::EndKind::continues;
    const bool end_continues = blank.end == job::EndKind::continues;
    if (!start_continues && !end_continues) {
        return {Eigen::Vector3d::UnitX(), Eigen::Vector3d::UnitY()};
    }
    const Eigen::Vector3d at_start = blank.line.frame(0).tangent;
    const Eigen::Vector3d at_end = blank.line.frame(blank.line.length()).tangent;
    constexpr double parallel = 1e-9; // sine of the angle between the planes
    if (start_continues && end_continues && at_start.cross(at_end).norm() > parallel) {
        return {};
    }
    // The normal of a plane of symmetry is the line's tangent there; only tilting along `outward`,
    // in that plane, is left.
    return {blank.line.frame(start_continues ? 0 : blank.line.length()).outward};
}

WebLift
set_on_block(const grid::SheetMesh& mesh, const PartShape& shape, const TiltDirections& tilts) {
    WebLift lift;
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        if (is_web(mesh, node)) {
            lift.web_nodes.push_back(node);
        }
    }
    check(!lift.web_nodes.empty(), "a part has a web");
    const auto n = static_cast<Eigen::Index>(lift.web_nodes.size());
    Eigen::Matrix3Xd points(3, n);
    for (Eigen::Index i = 0; i < n; ++i) {
        points.col(i) = block_face_point(shape, lift.web_nodes[static_cast<std::size_t>(i)]);
    }
    const RestingPlane resting =
        find_resting_plane(points, centroid_of_web(mesh, shape, points), tilts);
    lift.plane = {resting.point, resting.normal};
    lift.slopes = -resting.normal.head<2>() / resting.normal.z();
    lift.gaps = (resting.normal.transpose() * (points.colwise() - resting.point)).transpose();
    lift.largest = std::max(0.0, lift.gaps.maxCoeff());
    for (const int at : resting.supports) {
        lift.supports.push_back(lift.web_nodes[static_cast<std::size_t>(at)]);
    }
    return lift;
}

} // namespace flangewright::findings
