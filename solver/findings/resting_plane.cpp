#include "solver/findings/resting_plane.hpp"

#include "mesh/base/check.hpp"

#include <Eigen/Geometry>
#include <Eigen/LU>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace flangewright::findings {

namespace {

// At most three unknowns (height and two slopes), so at most three touching points.
using Small = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 3, 1>;
using SmallSquare = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 3, 3>;
using Columns = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 3>;

/// Points in the frame of the last plane: rows 1, u, v (as many as tilts) about the weight, and the
/// heights. The last columns are far away and very high, a first support that always surrounds the
/// weight and is driven out by any real point.
struct Heights {
    Columns columns;
    Eigen::VectorXd height;
    double size = 0;
};

Heights heights_in(
    const Eigen::Matrix3Xd& points,
    const Eigen::Vector3d& weight,
    const Eigen::Vector3d& normal,
    const TiltDirections& tilts
) {
    const Eigen::Index n = points.cols();
    const auto m = static_cast<Eigen::Index>(tilts.size()) + 1;
    Heights in{Columns(m, n + m), Eigen::VectorXd(n + m), 1e-9};
    in.columns.row(0).setOnes();
    for (Eigen::Index i = 0; i < n; ++i) {
        const Eigen::Vector3d from_weight = points.col(i) - weight;
        in.height(i) = normal.dot(from_weight);
        for (Eigen::Index j = 1; j < m; ++j) {
            in.columns(j, i) = tilts[static_cast<std::size_t>(j) - 1].dot(from_weight);
        }
        in.size = std::max(in.size, from_weight.norm());
    }
    for (Eigen::Index k = 0; k < m; ++k) {
        in.height(n + k) = 1e4 * in.size;
        const double turn =
            0.3 + 2 * std::numbers::pi * static_cast<double>(k) / static_cast<double>(m);
        if (m == 2) {
            in.columns(1, n + k) = k == 0 ? -10 * in.size : 10 * in.size;
        } else if (m == 3) {
            in.columns(1, n + k) = 10 * in.size * std::cos(turn);
            in.columns(2, n + k) = 10 * in.size * std::sin(turn);
        }
    }
    return in;
}

/// The touching points and the plane through them: height and slopes.
struct Support {
    std::vector<Eigen::Index> touching;
    Small plane;
    SmallSquare inverse; // of the matrix whose columns are the touching points'
};

void put_plane_through(Support& support, const Heights& in) {
    const Eigen::Index m = in.columns.rows();
    SmallSquare basis(m, m);
    Small height(m);
    for (Eigen::Index k = 0; k < m; ++k) {
        const Eigen::Index at = support.touching[static_cast<std::size_t>(k)];
        basis.col(k) = in.columns.col(at);
        height(k) = in.height(at);
    }
    support.inverse = basis.inverse();
    support.plane = support.inverse.transpose() * height;
}

/// The point farthest below the plane, or -1.
Eigen::Index point_below(const Support& support, const Heights& in) {
    const Eigen::VectorXd gap = in.height - in.columns.transpose() * support.plane;
    Eigen::Index lowest = 0;
    return gap.minCoeff(&lowest) < -1e-12 * in.size ? lowest : -1;
}

/// Which touching point gives way to `entering` so that the others still surround the weight.
Eigen::Index giving_way(const Support& support, const Heights& in, Eigen::Index entering) {
    const Small share = support.inverse.col(0); // of the weight, carried by each touching point
    const Small change = support.inverse * in.columns.col(entering);
    Eigen::Index leaving = -1;
    double least = std::numeric_limits<double>::infinity();
    for (Eigen::Index k = 0; k < change.size(); ++k) {
        if (change(k) <= 1e-12) {
            continue;
        }
        const double ratio = std::max(share(k), 0.0) / change(k);
        if (ratio < least) {
            least = ratio;
            leaving = k;
        }
    }
    return leaving;
}

Support find_support(const Heights& in) {
    const Eigen::Index m = in.columns.rows();
    const Eigen::Index n = in.columns.cols() - m;
    Support support;
    for (Eigen::Index k = 0; k < m; ++k) {
        support.touching.push_back(n + k);
    }
    put_plane_through(support, in);
    const Eigen::Index enough = 100 + 10 * n;
    for (Eigen::Index pass = 0; pass < enough; ++pass) {
        const Eigen::Index entering = point_below(support, in);
        if (entering < 0) {
            break;
        }
        const Eigen::Index leaving = giving_way(support, in, entering);
        if (leaving < 0) {
            break;
        }
        support.touching[static_cast<std::size_t>(leaving)] = entering;
        put_plane_through(support, in);
    }
    // Whatever happened, the plane ends below every real point.
    const Eigen::VectorXd gap = in.height - in.columns.transpose() * support.plane;
    support.plane(0) += std::min(0.0, gap.head(n).minCoeff());
    return support;
}

/// The weight moved by next to nothing, off any line between points of a regular mesh: where the
/// part could rock, the move decides, and the search can't go round in circles.
Eigen::Vector3d
nudged(const Eigen::Vector3d& weight, const Eigen::Matrix3Xd& points, const TiltDirections& tilts) {
    const double step = 1e-9 * (points.colwise() - weight).colwise().norm().maxCoeff();
    Eigen::Vector3d moved = weight;
    for (std::size_t j = 0; j < tilts.size(); ++j) {
        moved += step * (j == 0 ? 0.618 : 0.414) * tilts[j];
    }
    return moved;
}

/// The tilt directions laid into the plane of the new normal.
void lay_into(TiltDirections& tilts, const Eigen::Vector3d& normal) {
    for (Eigen::Vector3d& tilt : tilts) {
        tilt = (tilt - tilt.dot(normal) * normal).normalized();
    }
    if (tilts.size() == 2) {
        tilts[1] = normal.cross(tilts[0]);
    }
}

} // namespace

RestingPlane find_resting_plane(
    const Eigen::Matrix3Xd& points, const Eigen::Vector3d& weight, const TiltDirections& tilts
) {
    check(points.cols() > 0 && tilts.size() <= 2, "a part rests on at least one point");
    const Eigen::Vector3d centre = nudged(weight, points, tilts);
    RestingPlane resting;
    TiltDirections directions = tilts;
    for (int pass = 0; pass < 8; ++pass) {
        const Heights in = heights_in(points, centre, resting.normal, directions);
        const Support support = find_support(in);
        Eigen::Vector3d normal = resting.normal;
        for (std::size_t j = 0; j < directions.size(); ++j) {
            normal -= support.plane(static_cast<Eigen::Index>(j) + 1) * directions[j];
        }
        normal.normalize();
        resting.point = centre + support.plane(0) * resting.normal;
        resting.supports.clear();
        for (const Eigen::Index at : support.touching) {
            if (at < points.cols()) {
                resting.supports.push_back(static_cast<int>(at));
            }
        }
        const bool is_at_rest = (normal - resting.normal).norm() < 1e-13;
        resting.normal = normal;
        if (is_at_rest) {
            break;
        }
        lay_into(directions, normal);
    }
    return resting;
}

} // namespace flangewright::findings
