#include "mesh/outline/polygons.hpp"

#include <algorithm>
#include <cstddef>

namespace flangewright::outline {

namespace {

/// Which side of a straight line a point lies on.
double
side_of_line(const Eigen::Vector3d& from, const Eigen::Vector3d& to, const Eigen::Vector3d& point) {
    return (to.x() - from.x()) * (point.y() - from.y())
        - (to.y() - from.y()) * (point.x() - from.x());
}

constexpr double touching = 1e-9; // mm

const Eigen::Vector3d& next_of(const Polygon& polygon, std::size_t i) {
    return polygon[(i + 1) % polygon.size()];
}

} // namespace

double
off_side(const Eigen::Vector3d& point, const Eigen::Vector3d& from, const Eigen::Vector3d& to) {
    const Eigen::Vector3d along = to - from;
    const double squared = along.squaredNorm();
    const double share =
        squared > 0 ? std::clamp((point - from).dot(along) / squared, 0.0, 1.0) : 0;
    return (point - from - share * along).norm();
}

bool do_cross(const Polygon& one, const Polygon& other) {
    for (std::size_t i = 0; i < one.size(); ++i) {
        const Eigen::Vector3d& a = one[i];
        const Eigen::Vector3d& b = next_of(one, i);
        for (std::size_t k = 0; k < other.size(); ++k) {
            const Eigen::Vector3d& c = other[k];
            const Eigen::Vector3d& d = next_of(other, k);
            const bool is_through = side_of_line(a, b, c) * side_of_line(a, b, d) < 0
                && side_of_line(c, d, a) * side_of_line(c, d, b) < 0;
            if (is_through || off_side(c, a, b) < touching || off_side(a, c, d) < touching) {
                return true;
            }
        }
    }
    return false;
}

bool contains(const Polygon& polygon, const Eigen::Vector3d& point) {
    bool is_inside = false;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const Eigen::Vector3d& a = polygon[i];
        const Eigen::Vector3d& b = next_of(polygon, i);
        if ((a.y() > point.y()) != (b.y() > point.y())
            && (side_of_line(a, b, point) > 0) == (b.y() > a.y())) {
            is_inside = !is_inside;
        }
    }
    return is_inside;
}

bool are_nested(const std::vector<Polygon>& polygons) {
    for (std::size_t i = 1; i < polygons.size(); ++i) {
        if (do_cross(polygons.front(), polygons[i])
            || !contains(polygons.front(), polygons[i].front())) {
            return false;
        }
        for (std::size_t k = 1; k < i; ++k) {
            if (do_cross(polygons[k], polygons[i]) || contains(polygons[k], polygons[i].front())
                || contains(polygons[i], polygons[k].front())) {
                return false;
            }
        }
    }
    return true;
}

} // namespace flangewright::outline
