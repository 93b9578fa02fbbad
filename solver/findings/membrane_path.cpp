#include "solver/findings/membrane_path.hpp"

#include "mesh/base/check.hpp"
#include "solver/material/log_strain.hpp"

#include <Eigen/LU>

#include <cmath>
#include <utility>

namespace flangewright::findings {

namespace {

using Columns = Eigen::Matrix<double, 3, 2>;

/// Both directions through an element's centre: the means of opposite edges.
Columns through_centre(
    const Eigen::Ref<const Eigen::Matrix3Xd>& positions, const std::array<int, 4>& quad
) {
    const auto at = [&](int corner) -> Eigen::Vector3d { return positions.col(quad[corner]); };
    Columns through;
    through.col(0) = 0.5 * (at(1) + at(2) - at(0) - at(3));
    through.col(1) = 0.5 * (at(2) + at(3) - at(0) - at(1));
    return through;
}

/// Log strain in rolling axes from the right Cauchy-Green tensor in the blank's.
Eigen::Vector3d rolling_strain(const Eigen::Matrix2d& C, double rolling_direction) {
    const material::LogStrain log({0.5 * (C(0, 0) + C(1, 1)), 0.5 * (C(0, 0) - C(1, 1)), C(0, 1)});
    if (!log.is_valid()) {
        return Eigen::Vector3d::Zero();
    }
    const material::SplitStrain e = log.value();
    const double c = std::cos(2 * rolling_direction);
    const double s = std::sin(2 * rolling_direction);
    const double difference = e[1] * c + e[2] * s;
    return {e[0] + difference, e[0] - difference, 2 * (e[2] * c - e[1] * s)};
}

} // namespace

Eigen::Matrix3Xd membrane_strain(
    const grid::SheetMesh& mesh,
    const Eigen::Ref<const Eigen::Matrix3Xd>& positions,
    double rolling_direction
) {
    check(positions.cols() == mesh.n_nodes(), "a shape of this mesh");
    Eigen::Matrix3Xd strain = Eigen::Matrix3Xd::Zero(3, mesh.n_nodes());
    Eigen::VectorXd weight = Eigen::VectorXd::Zero(mesh.n_nodes());
    for (const std::array<int, 4>& quad : mesh.quads) {
        const Eigen::Matrix2d flat = through_centre(mesh.positions, quad).topRows<2>();
        const Columns now = through_centre(positions, quad);
        const Columns F = now * flat.inverse();
        const Eigen::Matrix2d C = F.transpose() * F;
        const Eigen::Vector3d here = rolling_strain(C, rolling_direction);
        const double area = std::abs(flat.determinant());
        for (const int node : quad) {
            strain.col(node) += area * here;
            weight[node] += area;
        }
    }
    for (int node = 0; node < mesh.n_nodes(); ++node) {
        if (weight[node] > 0) {
            strain.col(node) /= weight[node];
        }
    }
    return strain;
}

MembranePaths::MembranePaths(int n_nodes)
    : points_(static_cast<std::size_t>(n_nodes), {Eigen::Vector3d::Zero()}) {}

void MembranePaths::look(const Eigen::Matrix3Xd& strain) {
    check(strain.cols() == n_nodes(), "a strain for each path");
    for (std::size_t node = 0; node < points_.size(); ++node) {
        const Eigen::Vector3d now = strain.col(static_cast<Eigen::Index>(node));
        const Eigen::Vector3d move = now - points_[node].back();
        if (move.cwiseAbs().maxCoeff() >= smallest_move) {
            points_[node].push_back(now);
        }
    }
}

void MembranePaths::end_step(const Eigen::Matrix3Xd& strain) {
    look(strain);
    for (std::size_t node = 0; node < points_.size(); ++node) {
        std::vector<Eigen::Vector3d>& points = points_[node];
        if (points.size() < 2) {
            continue;
        }
        const Eigen::Vector3d now = strain.col(static_cast<Eigen::Index>(node));
        const Eigen::Vector3d stretch = points.back() - points[points.size() - 2];
        if (stretch.dot(now - points.back()) > 0) {
            points.back() = now;
        }
    }
}

void MembranePaths::begin_anew(const Eigen::Matrix3Xd& strain) {
    check(strain.cols() == n_nodes(), "a strain for each path");
    for (std::size_t node = 0; node < points_.size(); ++node) {
        points_[node] = {strain.col(static_cast<Eigen::Index>(node))};
    }
}

void MembranePaths::keep_only(std::span<const int> nodes) {
    std::vector<std::vector<Eigen::Vector3d>> kept;
    kept.reserve(nodes.size());
    for (const int node : nodes) {
        kept.push_back(points_[static_cast<std::size_t>(node)]);
    }
    points_ = std::move(kept);
}

std::vector<Eigen::Vector3d> MembranePaths::increments(int node) const {
    const std::vector<Eigen::Vector3d>& points = points_[static_cast<std::size_t>(node)];
    std::vector<Eigen::Vector3d> increments;
    for (std::size_t i = 1; i < points.size(); ++i) {
        increments.emplace_back(points[i] - points[i - 1]);
    }
    return increments;
}

Eigen::Vector3d MembranePaths::moved(int node) const {
    const std::vector<Eigen::Vector3d>& points = points_[static_cast<std::size_t>(node)];
    return points.back() - points.front();
}

} // namespace flangewright::findings
