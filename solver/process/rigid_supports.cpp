#include "solver/process/rigid_supports.hpp"

#include <Eigen/Dense>

#include <array>
#include <cmath>

namespace flangewright::process {

namespace {

using shell::dof_per_node;
using Matrix6 = Eigen::Matrix<double, 6, 6>;
using Row6 = Eigen::Matrix<double, 1, 6>;

// How a degree of freedom moves in the six rigid motions (three shifts, three turns about
// `origin`).
Row6 rigid_row(
    const Workpiece& piece, int node, int k, const Eigen::Vector3d& origin, double size
) {
    const Eigen::Vector3d axis = piece.node_axes[static_cast<std::size_t>(node)].col(k);
    const Eigen::Vector3d arm = (piece.state.positions.col(node) - origin) / size;
    Row6 row;
    row << axis.transpose(), arm.cross(axis).transpose();
    return row;
}

// The three web nodes that span the widest triangle, found by growing it greedily.
std::array<int, 3> widest_web_triangle(const Workpiece& piece) {
    std::vector<int> candidates = piece.mesh.web_edge;
    candidates.insert(candidates.end(), piece.mesh.bend_begin.begin(), piece.mesh.bend_begin.end());
    const auto at = [&](int node) -> Eigen::Vector3d { return piece.state.positions.col(node); };
    std::array<int, 3> corners{candidates.front(), candidates.front(), candidates.front()};
    double widest = -1;
    for (const int a :
         {piece.mesh.web_edge.front(), piece.mesh.web_edge.back(), piece.mesh.bend_begin.front()}) {
        for (const int b : candidates) {
            for (const int c :
                 {piece.mesh.bend_begin.front(),
                  piece.mesh.bend_begin.back(),
                  piece.mesh.bend_begin[piece.mesh.bend_begin.size() / 2],
                  piece.mesh.web_edge[piece.mesh.web_edge.size() / 2],
                  piece.mesh.web_edge.back()}) {
                const double area = (at(b) - at(a)).cross(at(c) - at(a)).norm();
                if (area > widest) {
                    widest = area;
                    corners = {a, b, c};
                }
            }
        }
    }
    return corners;
}

} // namespace

void add_rigid_supports(const Workpiece& piece, std::vector<bool>& is_fixed) {
    const std::array<int, 3> corners = widest_web_triangle(piece);
    Eigen::Vector3d origin = Eigen::Vector3d::Zero();
    for (const int node : corners) {
        origin += piece.state.positions.col(node) / 3;
    }
    double size = 1e-9;
    for (const int node : corners) {
        size = std::max(size, (piece.state.positions.col(node) - origin).norm());
    }
    // Gram matrix of what is held already; a support counts when it holds a motion still free.
    Eigen::Matrix<double, 6, 6> held = Matrix6::Zero();
    int rank = 0;
    const auto try_support = [&](Row6 row) {
        for (int i = 0; i < rank; ++i) {
            row -= row.dot(held.row(i)) * held.row(i);
        }
        constexpr double still_free = 1e-3;
        if (rank == 6 || row.norm() < still_free) {
            return false;
        }
        held.row(rank++) = row.normalized();
        return true;
    };
    for (int node = 0; node < piece.model.n_nodes(); ++node) {
        for (int k = 0; k < 3; ++k) {
            if (is_fixed[static_cast<std::size_t>(node * dof_per_node + k)]) {
                try_support(rigid_row(piece, node, k, origin, size));
            }
        }
    }
    constexpr std::array<int, 3> order{2, 1, 0}; // height first, then across, then along
    for (const int k : order) {
        for (const int node : corners) {
            const auto dof = static_cast<std::size_t>(node * dof_per_node + k);
            if (!is_fixed[dof] && try_support(rigid_row(piece, node, k, origin, size))) {
                is_fixed[dof] = true;
            }
        }
    }
}

} // namespace flangewright::process
