#include "solver/findings/edge_strain.hpp"

#include "mesh/base/check.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::findings {

namespace {

/// Flat length and log strain of the pieces between neighbouring edge nodes.
struct Pieces {
    Eigen::VectorXd length;
    Eigen::VectorXd strain;
};

Pieces pieces_of(const grid::SheetMesh& mesh, const Eigen::Ref<const Eigen::Matrix3Xd>& positions) {
    const auto n = static_cast<Eigen::Index>(mesh.free_edge.size()) - 1;
    Pieces pieces{Eigen::VectorXd(n), Eigen::VectorXd(n)};
    for (Eigen::Index i = 0; i < n; ++i) {
        const int a = mesh.free_edge[static_cast<std::size_t>(i)];
        const int b = mesh.free_edge[static_cast<std::size_t>(i) + 1];
        pieces.length(i) = (mesh.positions.col(b) - mesh.positions.col(a)).norm();
        pieces.strain(i) =
            std::log((positions.col(b) - positions.col(a)).norm() / pieces.length(i));
    }
    return pieces;
}

/// Strain at the outer end of piece `last`, whose inner neighbour is `next`.
double
strain_at_end(const Pieces& pieces, Eigen::Index last, Eigen::Index next, job::EndKind kind) {
    if (kind == job::EndKind::continues || last == next) {
        return pieces.strain(last);
    }
    const double between_centres = 0.5 * (pieces.length(last) + pieces.length(next));
    const double slope = (pieces.strain(last) - pieces.strain(next)) / between_centres;
    return pieces.strain(last) + 0.5 * pieces.length(last) * slope;
}

} // namespace

Eigen::VectorXd edge_strain(
    const grid::SheetMesh& mesh,
    const Eigen::Ref<const Eigen::Matrix3Xd>& positions,
    const EdgeEnds& ends
) {
    check(mesh.free_edge.size() >= 2, "a free edge has two nodes");
    const Pieces pieces = pieces_of(mesh, positions);
    const Eigen::Index n = pieces.strain.size();
    Eigen::VectorXd strain(n + 1);
    strain(0) = strain_at_end(pieces, 0, std::min<Eigen::Index>(1, n - 1), ends.start);
    strain(n) = strain_at_end(pieces, n - 1, std::max<Eigen::Index>(n - 2, 0), ends.end);
    for (Eigen::Index i = 1; i < n; ++i) {
        const double before = pieces.length(i - 1);
        const double after = pieces.length(i);
        strain(i) = (before * pieces.strain(i - 1) + after * pieces.strain(i)) / (before + after);
    }
    return strain;
}

} // namespace flangewright::findings
