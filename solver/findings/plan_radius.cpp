#include "solver/findings/plan_radius.hpp"

#include <Eigen/SVD>

#include <algorithm>
#include <cmath>
#include <limits>

namespace flangewright::findings {

namespace {

constexpr double straight_enough = 1e-6; // sagitta over chord
constexpr double infinite = std::numeric_limits<double>::infinity();

/// The points turned and moved so that the chord lies on x about its middle, scaled by its length.
struct OnChord {
    Eigen::Matrix2Xd points;
    double chord = 0;
};

OnChord on_chord(const Eigen::Ref<const Eigen::Matrix3Xd>& positions, std::span<const int> nodes) {
    // A closed ring has no chord: the point farthest from the first serves as the other end.
    const Eigen::Vector2d first = positions.col(nodes.front()).head<2>();
    Eigen::Vector2d far = first;
    for (const int node : nodes) {
        const Eigen::Vector2d p = positions.col(node).head<2>();
        if ((p - first).norm() > (far - first).norm()) {
            far = p;
        }
    }
    OnChord fit{Eigen::Matrix2Xd(2, nodes.size()), (far - first).norm()};
    if (fit.chord == 0) {
        return fit;
    }
    const Eigen::Vector2d along = (far - first) / fit.chord;
    const Eigen::Vector2d across(-along.y(), along.x());
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        const Eigen::Vector2d p = positions.col(nodes[i]).head<2>() - 0.5 * (first + far);
        fit.points.col(static_cast<Eigen::Index>(i)) << along.dot(p) / fit.chord,
            across.dot(p) / fit.chord;
    }
    return fit;
}

/// Curvature of the curve a (x^2 + y^2) + b x + c y + d = 0, a circle or (a = 0) a straight line.
/// Least squares of the left side over the length of its gradient, which is the distance to first
/// order; the gradient is taken from the pass before.
double curvature_of(const Eigen::Matrix2Xd& points) {
    const Eigen::Index n = points.cols();
    Eigen::MatrixX4d rows(n, 4);
    for (Eigen::Index i = 0; i < n; ++i) {
        rows.row(i) << points.col(i).squaredNorm(), points(0, i), points(1, i), 1;
    }
    double curvature = 0;
    Eigen::VectorXd weight = Eigen::VectorXd::Ones(n);
    for (int pass = 0; pass < 20; ++pass) {
        const Eigen::MatrixXd weighted = weight.asDiagonal() * rows;
        const Eigen::JacobiSVD<Eigen::MatrixXd> svd(weighted, Eigen::ComputeFullV);
        const Eigen::Vector4d abcd = svd.matrixV().col(3);
        const double a = abcd(0);
        const Eigen::Vector2d bc = abcd.segment<2>(1);
        const double gradient_squared = bc.squaredNorm() - 4 * a * abcd(3);
        if (gradient_squared <= 0) {
            return curvature;
        }
        const double now = 2 * std::abs(a) / std::sqrt(gradient_squared);
        if (std::abs(now - curvature) <= 1e-13 * now) {
            return now;
        }
        curvature = now;
        for (Eigen::Index i = 0; i < n; ++i) {
            const Eigen::Vector2d gradient = 2 * a * points.col(i) + bc;
            weight(i) = 1 / std::max(gradient.norm(), 1e-9);
        }
    }
    return curvature;
}

} // namespace

double
plan_radius(const Eigen::Ref<const Eigen::Matrix3Xd>& positions, std::span<const int> nodes) {
    if (nodes.size() < 3) {
        return infinite;
    }
    const OnChord fit = on_chord(positions, nodes);
    if (fit.chord == 0) {
        return infinite;
    }
    const double curvature = curvature_of(fit.points);
    // A shallow arc of unit chord rises by an eighth of its curvature.
    return curvature < 8 * straight_enough ? infinite : fit.chord / curvature;
}

} // namespace flangewright::findings
