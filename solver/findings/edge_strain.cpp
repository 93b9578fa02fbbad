#include "solver/findings/edge_strain.hpp"

#include "mesh/base/check.hpp"
#include "mesh/grid/outlines.hpp"

#include <algorithm>
#include <cmath>

namespace flangewright::findings {

namespace {

/// Flat length and log strain of the pieces between neighbouring edge nodes.
struct Pieces {
    Eigen::VectorXd length;
    Eigen::VectorXd strain;
};

Pieces pieces_of(
    const grid::SheetMesh& mesh,
    const std::vector<int>& line,
    const Eigen::Ref<const Eigen::Matrix3Xd>& positions
) {
    const auto n = static_cast<Eigen::Index>(line.size()) - 1;
    Pieces pieces{Eigen::VectorXd(n), Eigen::VectorXd(n)};
    for (Eigen::Index i = 0; i < n; ++i) {
        const int a = line[static_cast<std::size_t>(i)];
        const int b = line[static_cast<std::size_t>(i) + 1];
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

/// Strain at the nodes of a line. An end that `continues` gives its piece's strain.
Eigen::VectorXd strain_at_nodes(const Pieces& pieces, const EdgeEnds& ends) {
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

/// Of an edge node whose neighbours along the edge both belong to rims.
double strain_of_lone_node(
    const grid::SheetMesh& mesh, int node, const Eigen::Ref<const Eigen::Matrix3Xd>& positions
) {
    double sum = 0;
    int n = 0;
    for (const grid::Rim& rim : mesh.rims) {
        if (rim.kind == grid::Rim::Kind::hole) {
            continue;
        }
        const Eigen::VectorXd strain = pieces_of(mesh, rim.nodes, positions).strain;
        if (rim.nodes.front() == node) {
            sum += strain(0);
            ++n;
        }
        if (rim.nodes.back() == node) {
            sum += strain(strain.size() - 1);
            ++n;
        }
    }
    check(n > 0, "an edge node has a neighbour along the edge");
    return sum / n;
}

} // namespace

Eigen::VectorXd edge_strain(
    const grid::SheetMesh& mesh,
    const Eigen::Ref<const Eigen::Matrix3Xd>& positions,
    const EdgeEnds& ends
) {
    check(mesh.free_edge.size() >= 2, "a free edge has two nodes");
    const std::vector<std::vector<int>> runs = grid::edge_runs(mesh);
    Eigen::VectorXd strain(static_cast<Eigen::Index>(mesh.free_edge.size()));
    Eigen::Index next = 0;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const auto n = static_cast<Eigen::Index>(runs[i].size());
        if (n == 1) {
            strain(next++) = strain_of_lone_node(mesh, runs[i].front(), positions);
            continue;
        }
        // Where a rim goes on, the edge does not end.
        const EdgeEnds of_run{
            i == 0 ? ends.start : job::EndKind::continues,
            i + 1 == runs.size() ? ends.end : job::EndKind::continues};
        strain.segment(next, n) = strain_at_nodes(pieces_of(mesh, runs[i], positions), of_run);
        next += n;
    }
    return strain;
}

Eigen::VectorXd rim_strain(
    const grid::SheetMesh& mesh,
    const grid::Rim& rim,
    const Eigen::Ref<const Eigen::Matrix3Xd>& positions
) {
    constexpr EdgeEnds open{job::EndKind::continues, job::EndKind::continues};
    const Pieces pieces = pieces_of(mesh, grid::rim_line(rim), positions);
    if (rim.kind != grid::Rim::Kind::hole) {
        return strain_at_nodes(pieces, open);
    }
    // Pieces of one length: four of them give a node's value to the third power of their length.
    const Eigen::Index n = pieces.strain.size();
    const auto piece = [&](Eigen::Index i) { return pieces.strain((i + n) % n); };
    Eigen::VectorXd strain(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        strain(i) = (7 * (piece(i - 1) + piece(i)) - piece(i - 2) - piece(i + 1)) / 12;
    }
    return strain;
}

} // namespace flangewright::findings
