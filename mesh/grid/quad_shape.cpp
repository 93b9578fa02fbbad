#include "mesh/grid/quad_shape.hpp"

#include <algorithm>
#include <cstddef>
#include <limits>

namespace flangewright::grid {

namespace {

/// Twice the area of the triangle at a corner; positive when counter-clockwise.
double
corner_area(const Eigen::Matrix3Xd& positions, const std::array<int, 4>& quad, std::size_t k) {
    const Eigen::Vector3d at = positions.col(quad[k]);
    const Eigen::Vector3d next = positions.col(quad[(k + 1) % 4]) - at;
    const Eigen::Vector3d before = positions.col(quad[(k + 3) % 4]) - at;
    return next.x() * before.y() - next.y() * before.x();
}

/// Moves each free node to the mean of its neighbours where that betters the worst element there.
class Smoother {
public:
    Smoother(Eigen::Matrix3Xd& positions, const std::vector<std::array<int, 4>>& quads)
        : positions_(positions), quads_(quads), quads_at_(n_nodes()), beside_(n_nodes()) {
        for (std::size_t q = 0; q < quads.size(); ++q) {
            for (std::size_t k = 0; k < 4; ++k) {
                const auto node = static_cast<std::size_t>(quads[q][k]);
                quads_at_[node].push_back(q);
                beside_[node].push_back(quads[q][(k + 1) % 4]);
                beside_[node].push_back(quads[q][(k + 3) % 4]);
            }
        }
    }

    void run(const std::vector<bool>& is_free) {
        constexpr int n_passes = 10;
        for (int pass = 0; pass < n_passes; ++pass) {
            for (std::size_t node = 0; node < is_free.size(); ++node) {
                if (is_free[node]) {
                    try_move(node);
                }
            }
        }
    }

private:
    [[nodiscard]] std::size_t n_nodes() const {
        return static_cast<std::size_t>(positions_.cols());
    }

    [[nodiscard]] double worst_at(std::size_t node) const {
        double worst = std::numeric_limits<double>::infinity();
        for (const std::size_t q : quads_at_[node]) {
            worst = std::min(worst, shape_of_quad(positions_, quads_[q]));
        }
        return worst;
    }

    void try_move(std::size_t node) {
        const auto column = static_cast<Eigen::Index>(node);
        const Eigen::Vector3d stood = positions_.col(column);
        const double before = worst_at(node);
        Eigen::Vector3d mean = Eigen::Vector3d::Zero();
        for (const int other : beside_[node]) {
            mean += positions_.col(other) / static_cast<double>(beside_[node].size());
        }
        positions_.col(column) = mean;
        if (worst_at(node) < before) {
            positions_.col(column) = stood;
        }
    }

    Eigen::Matrix3Xd& positions_;
    const std::vector<std::array<int, 4>>& quads_;
    std::vector<std::vector<std::size_t>> quads_at_;
    std::vector<std::vector<int>> beside_;
};

} // namespace

double shape_of_quad(const Eigen::Matrix3Xd& positions, const std::array<int, 4>& quad) {
    double least = std::numeric_limits<double>::infinity();
    double squared = 0;
    for (std::size_t k = 0; k < 4; ++k) {
        least = std::min(least, corner_area(positions, quad, k));
        squared += (positions.col(quad[k]) - positions.col(quad[(k + 1) % 4])).squaredNorm() / 4;
    }
    return least / squared;
}

void turn_counter_clockwise(
    const Eigen::Matrix3Xd& positions, std::vector<std::array<int, 4>>& quads
) {
    for (std::array<int, 4>& quad : quads) {
        double area = 0;
        for (std::size_t k = 0; k < 4; ++k) {
            area += corner_area(positions, quad, k);
        }
        if (area < 0) {
            std::swap(quad[1], quad[3]);
        }
    }
}

bool all_convex(const Eigen::Matrix3Xd& positions, const std::vector<std::array<int, 4>>& quads) {
    return std::ranges::all_of(quads, [&positions](const std::array<int, 4>& quad) {
        return shape_of_quad(positions, quad) > 0;
    });
}

void smooth_quads(
    Eigen::Matrix3Xd& positions,
    const std::vector<std::array<int, 4>>& quads,
    const std::vector<bool>& is_free
) {
    Smoother(positions, quads).run(is_free);
}

} // namespace flangewright::grid
